//! How many random cases a property is tried on.

use proptest::test_runner::Config;

/// So many random cases, or as many as `BUNKLINE_CASES` asks for if that is more; failures are shown, not kept in a file.
pub fn cases(cases: u32) -> Config {
    let asked = std::env::var("BUNKLINE_CASES").ok().map(|text| {
        text.parse().unwrap_or_else(|_| panic!("BUNKLINE_CASES: expected a whole number, found {text}"))
    });
    Config {
        cases: asked.map_or(cases, |asked: u32| asked.max(cases)),
        failure_persistence: None,
        ..Config::default()
    }
}
