//! A picture taken apart: its texts, lines and areas, where they lie on the page.

/// A text with the stretch of page that it takes: half an em a letter, which is about what a face without serifs takes
/// of mixed text, at 13 px.
#[derive(Debug, Clone)]
pub struct Text {
    pub words: String,
    pub left: f64,
    pub right: f64,
    /// Its baseline.
    pub y: f64,
}

/// A picture, whose view is 1000 wide.
#[derive(Debug)]
pub struct Svg {
    pub height: f64,
    pub texts: Vec<Text>,
    /// Lines, each with its class.
    paths: Vec<(String, Vec<(f64, f64)>)>,
    areas: Vec<(String, [f64; 4])>,
}

impl Svg {
    /// A picture that is well-formed.
    pub fn read(svg: &str) -> Self {
        let document = roxmltree::Document::parse(svg).unwrap_or_else(|error| panic!("{error}\n{svg}"));
        let root = document.root_element();
        assert!(root.has_tag_name(("http://www.w3.org/2000/svg", "svg")));
        let view = root.attribute("viewBox").and_then(|view| view.strip_prefix("0 0 1000 "));
        let height = view.and_then(|height| height.parse().ok()).expect("a view box");
        let number = |node: &roxmltree::Node, name| -> f64 {
            node.attribute(name).and_then(|number| number.parse().ok()).expect("a number")
        };
        let class = |node: &roxmltree::Node| node.attribute("class").unwrap_or_default().to_string();
        let (mut texts, mut paths, mut areas) = (Vec::new(), Vec::new(), Vec::new());
        for node in root.descendants() {
            match node.tag_name().name() {
                "text" => {
                    let words = node.text().unwrap_or_default().to_string();
                    let wide = 6.5 * words.chars().count() as f64;
                    let (x, y) = (number(&node, "x"), number(&node, "y"));
                    let left = match node.attribute("text-anchor") {
                        Some("end") => x - wide,
                        Some("middle") => x - wide / 2.0,
                        _ => x,
                    };
                    texts.push(Text { words, left, right: left + wide, y });
                }
                "path" => {
                    let line = node.attribute("d").expect("a line").trim_start_matches('M');
                    let point = |point: &str| {
                        let (x, y) = point.split_once(' ').expect("a point");
                        (x.parse().expect("a number"), y.parse().expect("a number"))
                    };
                    for run in line.split('M') {
                        paths.push((class(&node), run.split('L').map(point).collect()));
                    }
                }
                "rect" => {
                    let [x, y] = ["x", "y"].map(|name| number(&node, name));
                    let [wide, high] = ["width", "height"].map(|name| number(&node, name));
                    areas.push((class(&node), [x, y, x + wide, y + high]));
                }
                _ => {}
            }
        }
        Self { height, texts, paths, areas }
    }

    /// The lines of a class.
    pub fn lines(&self, class: &str) -> Vec<Vec<(f64, f64)>> {
        self.paths.iter().filter(|(of, _)| of == class).map(|(_, points)| points.clone()).collect()
    }

    /// From where to where areas of a class lie, across.
    pub fn areas(&self, class: &str) -> Vec<[f64; 2]> {
        self.areas
            .iter()
            .filter(|(of, _)| of == class)
            .map(|(_, [left, _, right, _])| [*left, *right])
            .collect()
    }

    /// The lowest and the highest mark of a chart's axis up, counted from the top: each with its value and its height.
    pub fn marks(&self, panel: usize) -> ((f64, f64), (f64, f64)) {
        let mut panels: Vec<Vec<(f64, f64)>> = Vec::new();
        for text in self.texts.iter().filter(|text| (text.right - 82.0).abs() < 0.5) {
            // A mark's baseline lies 4 below its line. A panel begins with its lowest mark.
            let mark = (text.words.replace('\u{2009}', "").parse().expect("a number"), text.y - 4.0);
            match panels.last_mut() {
                Some(marks) if marks.last().is_some_and(|(_, y)| *y > mark.1) => marks.push(mark),
                _ => panels.push(vec![mark]),
            }
        }
        let marks = &panels[panel];
        (marks[0], marks[marks.len() - 1])
    }

    /// The first and the last mark of a chart's axis across.
    pub fn marks_across(&self) -> ((f64, f64), (f64, f64)) {
        let mark = |text: &Text| {
            Some((text.words.parse::<f64>().ok()?, f64::midpoint(text.left, text.right), text.y))
        };
        let lowest = self.texts.iter().filter_map(mark).map(|(.., y)| y).fold(0.0, f64::max);
        let marks: Vec<(f64, f64, f64)> =
            self.texts.iter().filter_map(mark).filter(|(.., y)| *y == lowest).collect();
        let (first, last) = (marks[0], marks[marks.len() - 1]);
        ((first.0, first.1), (last.0, last.1))
    }

    /// Every text stays inside the view and clear of every other.
    pub fn assert_readable(&self, of: &str) {
        for (i, text) in self.texts.iter().enumerate() {
            let Text { words, left, right, y, .. } = text;
            let inside = *left >= 0.0 && *right <= 1000.0 && *y >= 10.0 && *y <= self.height;
            assert!(inside, "{of}: {words} from {left} to {right} at {y} of {}", self.height);
            for other in &self.texts[..i] {
                let beside = *right <= other.left || other.right <= *left;
                assert!((y - other.y).abs() >= 12.0 || beside, "{of}: {words} over {}", other.words);
            }
        }
    }
}
