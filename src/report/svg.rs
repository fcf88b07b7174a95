//! What all pictures share: one style sheet, a width, and how much room a text takes.

/// By day, by night and on paper, which is always white.
pub(super) const STYLE: &str = include_str!("svg.css");

/// Every picture's view is so wide.
pub(super) const WIDTH: f64 = 720.0;

/// A number as short as the eye needs it.
pub(super) fn near(number: f64) -> f64 {
    // No negative zero.
    (number * 10.0).round() / 10.0 + 0.0
}

/// How wide a text may be drawn at 13 px in any usual face without serifs.
pub(super) fn width(text: &str) -> f64 {
    let of = |letter: char| match letter {
        'i' | 'j' | 'l' | 't' | 'f' | 'r' | ' ' | '.' | ',' | ':' | ';' | '\'' | '(' | ')' | '|' | '!' => 5.5,
        'm' | 'w' | 'M' | 'W' | '%' | '@' => 12.5,
        '\u{2009}' => 3.0,
        _ if letter.is_uppercase() => 10.0,
        _ if letter.is_ascii() => 8.0,
        _ => 13.0,
    };
    text.chars().map(of).sum()
}

/// A text as far as there is room for it.
pub(super) fn cut(text: &str, room: f64) -> String {
    if width(text) <= room {
        return text.to_string();
    }
    let mut cut = text.to_string();
    while cut.pop().is_some() && width(&cut) + width("…") > room {}
    cut + "…"
}
