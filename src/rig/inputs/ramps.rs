//! `[[ramps]]`.

use super::prelude::*;

inputs! {
    s, at;

    RAMPS_NAME: Text = "ramps.*.name", s.ramps[at[0]].name, Any, Defaulted,
        "the ramp's name",
        PLAIN,
        default: rule("ramp 1, ramp 2 …");
    RAMPS_PROFILE_LENGTH: Length = "ramps.*.profile.*.length", s.ramps[at[0]].profile[at[1]].length, Positive, Measured,
        "horizontal length of a run of the ramp",
        "Tape it along the ground: on grades below 25 % the difference is under 3 %.";
    RAMPS_PROFILE_GRADE: Slope = "ramps.*.profile.*.grade", s.ramps[at[0]].profile[at[1]].grade, Any, Measured,
        "grade of a run of the ramp, downhill positive",
        "Lay a 4 ft level on the concrete and measure the gap under its low end: each half inch is about 1 %. With a 1 m level each 10 mm is 1 %.";
    RAMPS_EASE: Length = "ramps.*.ease", s.ramps[at[0]].ease, NotNegative, Defaulted,
        "length of the vertical curve at each break",
        "Lay a straightedge over the break: where it parts from the concrete to either side, the curve begins and ends.",
        default: value(inches(0.0)).assumed("sharp breaks; easing them takes 10 to 25 % off the peaks (common practice, no source)");
    RAMPS_WATER_FROM_TOP: Length = "ramps.*.water_from_top", s.ramps[at[0]].water_from_top, Positive, Measured,
        "from the first break to the water's edge",
        "Tape it at the tide you mean to use.";
    RAMPS_WATER_LEVEL: Length = "ramps.*.water_level", s.ramps[at[0]].water_level, Any, Measured,
        "the water above the level ground at the top; below is negative",
        "Level across from the top to a staff at the water's edge.";
    RAMPS_FRICTION: Share = "ramps.*.friction", s.ramps[at[0]].friction, Positive, Defaulted,
        "friction of the wet ramp under the tow vehicle's tires",
        "Judge it: clean wet concrete 50 %, weed and slime 30 % or less.",
        default: value(percent(30.0)).assumed("a wet ramp with weed, common practice, no source; clean wet concrete gives 50 to 70 %"),
        plausible: (percent(3.0), percent(90.0));
    RAMPS_WATER: Choice<Water> = "ramps.*.water", s.ramps[at[0]].water, Any, Defaulted,
        "what the ramp leads into",
        "fresh-water or sea-water.",
        default: word("fresh-water").assumed("a lake or a river");
}

lists! {
    s, at, i;

    "ramps", s.ramps, s.ramps[i].name.as_deref();
    "ramps.*.profile", s.ramps[at[0]].profile, None;
}
