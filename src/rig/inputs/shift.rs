//! `[shift]` and `[travel]`: a proposed move, and how far each part can go.

use super::prelude::*;

inputs! {
    s, at;

    SHIFT_BOAT: Length = "shift.boat", s.shift.boat, Any, Defaulted,
        "boat, bow stop and winch post moved aft",
        PLAIN,
        default: value(inches(0.0));
    SHIFT_AXLES: Length = "shift.axles", s.shift.axles, Any, Defaulted,
        "axles moved aft",
        PLAIN,
        default: value(inches(0.0));
    SHIFT_TONGUE: Length = "shift.tongue", s.shift.tongue, Any, Defaulted,
        "tongue drawn in",
        PLAIN,
        default: value(inches(0.0));
    SHIFT_BUNKS: Length = "shift.bunks", s.shift.bunks, Any, Defaulted,
        "bunks moved aft",
        PLAIN,
        default: value(inches(0.0));
    SHIFT_ASHORE: Weight = "shift.ashore", s.shift.ashore, NotNegative, Defaulted,
        "weight left ashore, taken out of the boat in every case at its centre of gravity",
        PLAIN,
        default: value(0.0);
    TRAVEL_BOAT: Reach = "travel.boat", s.travel.boat, Any, Defaulted,
        "how far the boat can go, aft positive",
        "Tape from where the winch post stands to each end of its slide.";
    TRAVEL_AXLES: Reach = "travel.axles", s.travel.axles, Any, Defaulted,
        "how far the axles can go, aft positive",
        "Tape along the free length of the frame rail.";
    TRAVEL_TONGUE: Reach = "travel.tongue", s.travel.tongue, Any, Defaulted,
        "how far the tongue can be drawn in",
        "Tape the free length of the tongue.";
    TRAVEL_BUNKS: Reach = "travel.bunks", s.travel.bunks, Any, Defaulted,
        "how far the bunks can go, aft positive",
        "Tape along the free length of the frame rail.";
}
