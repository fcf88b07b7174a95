//! Pages in a real browser, where one is at hand: `BUNKLINE_BROWSER`, else `chromium`.

use crate::svg::Svg;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// Written after a copy of a page: what the browser itself finds of every text where it has drawn it. Letters reach less
/// far than the box that it gives for their line. A browser without a window may make none narrower than it likes, so that
/// the page is held to `WIDE`.
const MEASURE: &str = r#"<script>
const faults = [], pictures = document.querySelectorAll("figure svg");
document.body.style.width = WIDE + "px";
for (const picture of pictures) {
  const view = picture.getBoundingClientRect(), texts = [...picture.querySelectorAll("text")];
  const boxes = texts.map(text => [text.textContent, text.getBoundingClientRect()]);
  boxes.forEach(([words, a], i) => {
    if (!a.width) faults.push("not drawn: " + words);
    if (a.left < view.left || a.right > view.right || a.top < view.top - 2 || a.bottom > view.bottom + 2)
      faults.push("outside: " + words);
    for (const [other, b] of boxes.slice(0, i)) {
      const common = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (a.left < b.right && b.left < a.right && common > 0.25 * a.height) faults.push(words + " on " + other);
    }
  });
}
for (const part of document.querySelector("main").children)
  if (part.getBoundingClientRect().right > WIDE) faults.push("too wide: " + part.textContent.slice(0, 40));
document.body.innerHTML = "";
document.body.append("pictures: " + pictures.length + "; faults: " + (faults.join("; ") || "none"));
</script>"#;

/// Longer than any browser takes.
const PATIENCE: Duration = Duration::from_secs(60);

/// The document that a browser makes of a page in a window so wide, by day or by night, all names of hosts unknown to it; `None`
/// where there is no browser.
fn made_of(page: &Path, wide: u32, is_night: bool) -> Option<String> {
    let browser = std::env::var_os("BUNKLINE_BROWSER").unwrap_or_else(|| "chromium".into());
    let [home, made] = ["home", "made"].map(|name| page.with_extension(name));
    let child = Command::new(&browser)
        .args(["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"])
        .args(["--disable-background-networking", "--host-resolver-rules=MAP * ~NOTFOUND", "--dump-dom"])
        .arg(format!("--window-size={wide},1000"))
        .arg(format!("--blink-settings=preferredColorScheme={}", u8::from(!is_night)))
        .arg(format!("--user-data-dir={}", home.display()))
        .arg(format!("file://{}", page.display()))
        .stdout(std::fs::File::create(&made).expect("a file"))
        .stderr(Stdio::null())
        .spawn();
    let mut child = child.ok()?;
    let start = Instant::now();
    while child.try_wait().expect("a process").is_none() {
        if start.elapsed() > PATIENCE {
            child.kill().expect("it ends");
            child.wait().expect("it ends");
        }
        std::thread::sleep(Duration::from_millis(50));
    }
    std::fs::remove_dir_all(home).ok();
    let document = std::fs::read_to_string(made).expect("what it printed");
    (!document.is_empty()).then_some(document)
}

/// A page as the program prints it.
fn page(arguments: &[&str]) -> String {
    let demo_data = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data");
    let mut program = Command::new(env!("CARGO_BIN_EXE_bunkline"));
    let output = program.current_dir(demo_data).args(arguments).args(["--format", "html"]).output();
    String::from_utf8(output.expect("the program runs").stdout).expect("UTF-8")
}

/// Nothing of a page comes from elsewhere, and on a phone and on a desk, by day and by night, the browser finds each text
/// of each picture drawn, inside its picture and clear of the others.
#[test]
#[expect(clippy::print_stderr, reason = "whoever runs the tests is told what was not looked at")]
fn pictures_can_be_read_in_a_browser() {
    let folder: PathBuf = Path::new(env!("CARGO_TARGET_TMPDIR")).join("browser");
    std::fs::create_dir_all(&folder).expect("a folder");
    for (name, arguments, pictures, wide) in [
        ("check", &["check", "pilot-cutter.toml"][..], 3, 390),
        ("place", &["place", "fishing-skiff.toml", "--units", "metric"], 1, 1000),
    ] {
        let page = page(arguments);
        for needed in ["<script", "<link", "src=", "@import", "url(http"] {
            assert!(!page.contains(needed), "{name}: {needed}");
        }
        for picture in page.split("<svg ").skip(1).filter_map(|rest| rest.split("</svg>").next()) {
            Svg::read(&format!("<svg {picture}</svg>")).assert_readable(name);
        }
        let file = folder.join(format!("{name}.html"));
        let measured = page + &MEASURE.replace("WIDE", &wide.to_string());
        std::fs::write(&file, measured).expect("a file");
        let Some(found) = made_of(&file, wide, wide < 1000) else {
            eprintln!("no browser at hand: skipped; BUNKLINE_BROWSER names one");
            return;
        };
        assert!(found.contains(&format!("pictures: {pictures}; faults: none")), "{name}: {found}");
    }
}
