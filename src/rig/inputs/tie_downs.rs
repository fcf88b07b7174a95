//! `[[trailer.tie_downs]]`, one each, or one for a pair that is alike.

use super::prelude::*;

inputs! {
    s, at;

    TRAILER_TIE_DOWNS_NAME: Text = "trailer.tie_downs.*.name", s.trailer.tie_downs[at[0]].name, Any, Defaulted,
        "what the tie-down is called",
        PLAIN,
        default: rule("tie-down 1, tie-down 2 …");
    TRAILER_TIE_DOWNS_KIND: Choice<TieDownKind> = "trailer.tie_downs.*.kind", s.trailer.tie_downs[at[0]].kind, Any, Defaulted,
        "what the tie-down is",
        "strap, chain or wire.",
        default: word("strap");
    TRAILER_TIE_DOWNS_COUNT: Count = "trailer.tie_downs.*.count", s.trailer.tie_downs[at[0]].count, Positive, Defaulted,
        "how many of these are alike",
        "2 where another stands mirrored on the other side, else 1.",
        default: count(1);
    TRAILER_TIE_DOWNS_BOAT_STATION: Length = "trailer.tie_downs.*.boat.station", s.trailer.tie_downs[at[0]].boat.station, Any, Measured,
        "the tie-down's end on the boat, forward of the transom",
        TAPE_STATION,
        plausible: (feet(-8.0), feet(60.0));
    TRAILER_TIE_DOWNS_BOAT_HEIGHT: Length = "trailer.tie_downs.*.boat.height", s.trailer.tie_downs[at[0]].boat.height, Any, Measured,
        "the tie-down's end on the boat, above the keel line",
        TAPE_KEEL,
        plausible: (feet(-4.0), feet(15.0));
    TRAILER_TIE_DOWNS_BOAT_SIDE: Length = "trailer.tie_downs.*.boat.side", s.trailer.tie_downs[at[0]].boat.side, Any, Measured,
        "the tie-down's end on the boat, to starboard",
        "Tape from the centreline; to port is negative.";
    TRAILER_TIE_DOWNS_TRAILER_STATION: Length = "trailer.tie_downs.*.trailer.station", s.trailer.tie_downs[at[0]].trailer.station, Any, Measured,
        "the tie-down's end on the trailer, behind the ball",
        TAPE_X,
        plausible: (feet(0.0), feet(60.0));
    TRAILER_TIE_DOWNS_TRAILER_HEIGHT: Length = "trailer.tie_downs.*.trailer.height", s.trailer.tie_downs[at[0]].trailer.height, Any, Measured,
        "the tie-down's end on the trailer, above ground",
        GROUND,
        plausible: (inches(4.0), inches(96.0));
    TRAILER_TIE_DOWNS_TRAILER_SIDE: Length = "trailer.tie_downs.*.trailer.side", s.trailer.tie_downs[at[0]].trailer.side, Any, Measured,
        "the tie-down's end on the trailer, to starboard",
        "Tape from the centreline; to port is negative.";
    TRAILER_TIE_DOWNS_WORKING: Weight = "trailer.tie_downs.*.working", s.trailer.tie_downs[at[0]].working, Positive, Measured,
        "least working limit of strap, ratchet, hooks, anchor and eye",
        "From the label sewn to the strap and the stamps on the rest: the least of all in its line.",
        plausible: (pounds(50.0), pounds(20000.0));
    TRAILER_TIE_DOWNS_BREAKING: Weight = "trailer.tie_downs.*.breaking", s.trailer.tie_downs[at[0]].breaking, Positive, Measured,
        "least breaking strength of strap, ratchet, hooks, anchor and eye",
        "From the label sewn to the strap and the stamps on the rest: the least of all in its line.",
        plausible: (pounds(150.0), pounds(60000.0));
    TRAILER_TIE_DOWNS_STRETCH: Share = "trailer.tie_downs.*.stretch", s.trailer.tie_downs[at[0]].stretch, Positive, Defaulted,
        "by how much of its length the tie-down stretches at its working limit",
        "From its maker's sheet.",
        default: rule("strap 5 %, chain 0.5 %, wire 1 %"),
        plausible: (percent(0.1), percent(30.0));
    TRAILER_TIE_DOWNS_OVER: Flag = "trailer.tie_downs.*.over", s.trailer.tie_downs[at[0]].over, Any, Defaulted,
        "whether the tie-down goes over the boat to the other side",
        "true where it does; its ends stand for the starboard half then.",
        default: word("false");
}

lists! {
    s, at, i;

    "trailer.tie_downs", s.trailer.tie_downs, s.trailer.tie_downs[i].name.as_deref();
}
