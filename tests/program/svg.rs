//! A picture taken apart: its texts, lines and areas, where they lie on the page.

/// How far each printable letter of ASCII advances, in hundredths of the size, in one of the widest faces that a browser
/// takes for sans-serif (read off the face's own table).
#[rustfmt::skip]
const ADVANCES: [u8; 95] = [
    32, 40, 46, 84, 64, 95, 78, 27, 39, 39, 50, 84, 32, 36, 32, 34,
    64, 64, 64, 64, 64, 64, 64, 64, 64, 64, 34, 34, 84, 84, 84, 53,
    100, 68, 69, 70, 77, 63, 58, 77, 75, 29, 29, 66, 56, 86, 75, 79,
    60, 79, 69, 63, 61, 73, 68, 99, 69, 61, 69, 39, 34, 39, 84, 50,
    50, 61, 63, 55, 63, 62, 35, 63, 63, 28, 28, 58, 28, 97, 63, 61,
    63, 63, 41, 52, 39, 63, 59, 82, 59, 59, 52, 64, 34, 64, 84,
];
/// All text is so large, with its letters from so far above the baseline to so far below it; bold is so much wider.
const SIZE: f64 = 13.0;
const ABOVE: f64 = 10.0;
const BELOW: f64 = 3.0;
const BOLD: f64 = 1.1;

/// How wide a text is.
fn width(words: &str) -> f64 {
    let advance = |letter: char| {
        let known = usize::try_from(u32::from(letter)).ok().and_then(|code| code.checked_sub(32));
        match known.and_then(|place| ADVANCES.get(place)) {
            Some(advance) => f64::from(*advance),
            None if letter == '\u{2009}' => 20.0,
            None => 100.0,
        }
    };
    words.chars().map(advance).sum::<f64>() * SIZE / 100.0
}

/// A text with the stretch of page that it takes.
#[derive(Debug, Clone)]
pub struct Text {
    pub words: String,
    pub left: f64,
    pub right: f64,
    /// Its baseline.
    pub y: f64,
}

impl Text {
    /// Whether two texts lie on one another.
    fn meets(&self, other: &Self) -> bool {
        let is_beside = self.right <= other.left || other.right <= self.left;
        (self.y - other.y).abs() < ABOVE + BELOW && !is_beside
    }

    /// Whether a straight line runs through it: looked at step by step, half a pixel each.
    fn is_struck(&self, (from, to): ((f64, f64), (f64, f64))) -> bool {
        let (run, fall) = (to.0 - from.0, to.1 - from.1);
        let steps = (run.hypot(fall) * 2.0).ceil().max(1.0);
        let inside =
            |(x, y): (f64, f64)| x > self.left && x < self.right && y > self.y - ABOVE && y < self.y + BELOW;
        let mut share = 0.0;
        while share <= steps {
            if inside((from.0 + run * share / steps, from.1 + fall * share / steps)) {
                return true;
            }
            share += 1.0;
        }
        false
    }
}

/// A picture.
#[derive(Debug)]
pub struct Svg {
    width: f64,
    pub height: f64,
    pub texts: Vec<Text>,
    /// Lines, each with its class.
    paths: Vec<(String, Vec<(f64, f64)>)>,
    areas: Vec<(String, [f64; 4])>,
    /// The middles of dots with a number.
    dots: Vec<(f64, f64)>,
}

impl Svg {
    /// A picture that is well-formed.
    pub fn read(svg: &str) -> Self {
        let document = roxmltree::Document::parse(svg).unwrap_or_else(|error| panic!("{error}\n{svg}"));
        let root = document.root_element();
        assert!(root.has_tag_name(("http://www.w3.org/2000/svg", "svg")));
        let view = root.attribute("viewBox").and_then(|view| view.strip_prefix("0 0 "));
        let (across, down) = view.and_then(|view| view.split_once(' ')).expect("a view box");
        let [across, height]: [f64; 2] = [across, down].map(|size| size.parse().expect("a number"));
        // What is drawn at full size has a width of its own.
        assert_eq!(across, if root.attribute("width").is_some() { 1000.0 } else { 720.0 });
        let number = |node: &roxmltree::Node, name| -> f64 {
            node.attribute(name).and_then(|number| number.parse().ok()).expect("a number")
        };
        let class = |node: &roxmltree::Node| node.attribute("class").unwrap_or_default().to_string();
        let (mut texts, mut paths, mut areas, mut dots) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        for node in root.descendants() {
            match node.tag_name().name() {
                "text" => {
                    let words = node.text().unwrap_or_default().to_string();
                    let is_bold = class(&node) == "mark";
                    let wide = width(&words) * if is_bold { BOLD } else { 1.0 };
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
                "circle" if class(&node) == "mark" => dots.push((number(&node, "cx"), number(&node, "cy"))),
                _ => {}
            }
        }
        Self { width: across, height, texts, paths, areas, dots }
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

    /// Each text that leaves the view, or lies on another, on a dot that has a number, or on a line that leads to a name or
    /// measures a length.
    fn faults(&self) -> Vec<String> {
        let leading = ["leader", "post", "dimension"].iter().flat_map(|class| self.lines(class));
        let leading: Vec<_> = leading.collect();
        let mut faults = Vec::new();
        for (i, text) in self.texts.iter().enumerate() {
            let Text { words, left, right, y } = text;
            let is_inside = *left >= 0.0 && *right <= self.width && *y >= ABOVE && *y + BELOW <= self.height;
            if !is_inside {
                faults.push(format!("{words}: from {left} to {right} at {y} of {}", self.height));
            }
            let others = self.texts[..i].iter().filter(|other| text.meets(other));
            faults.extend(others.map(|other| format!("{words}: on {}", other.words)));
            let dots = self.dots.iter().filter(|dot| text.is_struck((**dot, **dot)));
            faults.extend(dots.map(|dot| format!("{words}: on a dot at {dot:?}")));
            let struck =
                |line: &&Vec<(f64, f64)>| line.windows(2).any(|ends| text.is_struck((ends[0], ends[1])));
            faults.extend(leading.iter().filter(struck).map(|line| format!("{words}: on a line {line:?}")));
        }
        faults
    }

    /// Every text stays inside the view and clear of whatever else is to be read.
    pub fn assert_readable(&self, of: &str) {
        let faults = self.faults();
        assert!(faults.is_empty(), "{of}: {faults:#?}");
    }
}

/// An M is 13 * 0.86 = 11.2 wide: MM from 10 to 32.4, from 10 above its baseline to 3 below it.
#[test]
fn what_cannot_be_read_is_found() {
    for (beside, faults) in [
        (r#"<text x="33" y="50">M</text>"#, 0),
        (r#"<text x="32" y="50">M</text>"#, 1),
        (r#"<text x="10" y="63">M</text>"#, 0),
        (r#"<text x="10" y="62">M</text>"#, 1),
        (r#"<text x="5" y="30" text-anchor="middle">M</text>"#, 1),
        (r#"<text x="719" y="30" text-anchor="end">M</text>"#, 0),
        (r#"<text x="710" y="30">M</text>"#, 1),
        (r#"<text x="50" y="98">M</text>"#, 1),
        (r#"<circle class="mark" cx="20" cy="45" r="2"/>"#, 1),
        (r#"<circle class="hole" cx="20" cy="45" r="2"/>"#, 0),
        (r#"<path class="leader" d="M0 45L60 45"/>"#, 1),
        (r#"<path class="dimension" d="M0 54L60 54"/>"#, 0),
        (r#"<path class="post" d="M40 0L40 90"/>"#, 0),
    ] {
        let svg = format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 720 100"><text x="10" y="50">MM</text>{beside}</svg>"#
        );
        let found = Svg::read(&svg).faults();
        assert_eq!(found.len(), faults, "{beside}: {found:?}");
    }
}
