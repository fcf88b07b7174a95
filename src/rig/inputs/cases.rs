//! `[[cases]]`: the ways the rig is loaded.

use super::prelude::*;

inputs! {
    s, at;

    CASES_NAME: Text = "cases.*.name", s.cases[at[0]].name, Any, Defaulted,
        "the case's name",
        PLAIN,
        default: rule("case 1, case 2 …");
    CASES_FILL: Share = "cases.*.fill.*", s.cases[at[0]].fill[at[1]], NotNegative, Defaulted,
        "how full a tank is in the case",
        "From its gauge or a dipstick.",
        default: rule("the tank's own fill");
    CASES_WITHOUT: Parts = "cases.*.without", s.cases[at[0]].without, Any, Defaulted,
        "what is left out in the case, by id",
        PLAIN;
}

lists! {
    s, at, i;

    "cases", s.cases, s.cases[i].name.as_deref();
    "cases.*.fill", s.cases[at[0]].fill, s.part_id(Part::Tank(i));
}
