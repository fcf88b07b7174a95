//! `[[weighings]]`: readings of a scale, each with its ±. `weigh` alone reads them.

use super::prelude::*;

inputs! {
    s, at;

    WEIGHINGS_WHAT: Choice<OnScale> = "weighings.*.what", s.weighings[at[0]].what, Any, Informational,
        "what stood on the scale",
        "Each axle on its own pad, the coupler itself, or trailer and boat together.";
    WEIGHINGS_WEIGHT: Weight = "weighings.*.weight", s.weighings[at[0]].weight, NotNegative, Informational,
        "what the scale showed, with its ±",
        "A truck scale is good to 20 lb; where it shows steps, to half a step.",
        plausible: (pounds(0.0), pounds(60000.0));
    WEIGHINGS_COUPLED: Flag = "weighings.*.coupled", s.weighings[at[0]].coupled, Any, Informational,
        "whether trailer and tow vehicle were coupled; axles are weighed so",
        PLAIN,
        default: rule("true");
    WEIGHINGS_CASE: Text = "weighings.*.case", s.weighings[at[0]].case, Any, Informational,
        "the case it was loaded as",
        PLAIN,
        default: rule("the first case");
    WEIGHINGS_BALL_HEIGHT: Length = "weighings.*.ball_height", s.weighings[at[0]].ball_height, Positive, Informational,
        "height of the ball, or of the coupler on the scale, above ground",
        "Tape up from level ground to the ball's centre.",
        default: rule("tow.ball_height"),
        plausible: (inches(6.0), inches(60.0));
    WEIGHINGS_BOAT: Length = "weighings.*.boat", s.weighings[at[0]].boat, Any, Informational,
        "how far aft the boat was moved for it",
        "Mark the keel on a crossmember, move the boat, tape between the marks.",
        default: rule("where the file has it"),
        plausible: (feet(-6.0), feet(6.0));
}

lists! {
    s, at, i;

    "weighings", s.weighings, None;
}
