//! `[measured]`: what scales say.

use super::prelude::*;

inputs! {
    s, at;

    MEASURED_GROSS_TRAILER_WEIGHT: Weight = "measured.gross_trailer_weight", s.measured.gross_trailer_weight, Positive, Correction,
        "trailer and boat on a scale",
        "Weigh the trailer's wheels uncoupled with the jack on the scale too, or wheels and coupler apart, and add.",
        plausible: (pounds(200.0), pounds(30000.0));
    MEASURED_TONGUE_WEIGHT: Weight = "measured.tongue_weight", s.measured.tongue_weight, NotNegative, Correction,
        "tongue weight on a scale",
        "Weigh at the coupler itself, frame level, not at the jack: the jack stands aft of the ball and reads more.",
        plausible: (pounds(0.0), pounds(5000.0));
    MEASURED_AXLES: Weight = "measured.axles.*", s.measured.axles[at[0]], Positive, Correction,
        "what an axle carries on a scale",
        "Weigh each axle on its own pad, coupled, on level ground, loaded as in the first case; a list, front to rear.",
        plausible: (pounds(50.0), pounds(15000.0));
}

lists! {
    s, at, i;

    "measured.axles", s.measured.axles, None;
}
