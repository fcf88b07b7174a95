//! The colours of a report.

use crate::report::text::Palette;
use anstyle::{AnsiColor, Style};

/// What is put around each kind of word; streams without colour strip it.
pub(super) fn palette() -> Palette {
    let around = |style: Style| (style.render().to_string(), style.render_reset().to_string());
    let bold = |colour: AnsiColor| around(Style::new().bold().fg_color(Some(colour.into())));
    Palette {
        bad: bold(AnsiColor::Red),
        warn: bold(AnsiColor::Yellow),
        good: bold(AnsiColor::Green),
        heading: around(Style::new().bold()),
    }
}
