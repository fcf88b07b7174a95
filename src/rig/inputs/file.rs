//! The keys above every table.

use super::prelude::*;

inputs! {
    s, at;

    FORMAT: Count = "format", s.format, Positive, Defaulted,
        "the format of the file",
        "Always 1.";
    TITLE: Text = "title", s.title, Any, Defaulted,
        "a line that names the rig",
        PLAIN;
    UNITS: Choice<Units> = "units", s.units, Any, Defaulted,
        "units of the printed report",
        "us or metric.",
        default: word("us");
}
