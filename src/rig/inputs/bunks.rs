//! What carries the boat: bunks, crossmembers, fenders, bow bunks and guides.

use super::prelude::*;

inputs! {
    s, at;

    TRAILER_RAIL_HALF_SPACING: Length = "trailer.rail_half_spacing", s.trailer.rail_half_spacing, Positive, Measured,
        "centreline to the middle of a frame rail",
        "Tape between the rails' middles and halve it.";
    TRAILER_BUNKS_AFT_END: Length = "trailer.bunks.aft_end", s.trailer.bunks.aft_end, Positive, Measured,
        "the bunks' aft end behind the ball",
        TAPE_X,
        plausible: (feet(4.0), feet(60.0));
    TRAILER_BUNKS_FORWARD_END: Length = "trailer.bunks.forward_end", s.trailer.bunks.forward_end, Positive, Measured,
        "the bunks' forward end behind the ball",
        TAPE_X,
        plausible: (feet(1.0), feet(55.0));
    TRAILER_BUNKS_HALF_SPACING: Length = "trailer.bunks.half_spacing", s.trailer.bunks.half_spacing, Positive, Measured,
        "centreline to each bunk's outer edge",
        "Tape between the bunks' outer edges and halve it; or give trailer.bunks.port and trailer.bunks.starboard.";
    TRAILER_BUNKS_PORT: Length = "trailer.bunks.port", s.trailer.bunks.port, Positive, Measured,
        "centreline to the port bunk's outer edge",
        "Tape from a string along the trailer's centreline.";
    TRAILER_BUNKS_STARBOARD: Length = "trailer.bunks.starboard", s.trailer.bunks.starboard, Positive, Measured,
        "centreline to the starboard bunk's outer edge",
        "Tape from a string along the trailer's centreline.";
    TRAILER_BUNKS_TOP: Length = "trailer.bunks.top", s.trailer.bunks.top, Positive, Measured,
        "the bunks' outer upper edge above ground",
        GROUND,
        plausible: (inches(4.0), inches(84.0));
    TRAILER_BUNKS_BOARD: Text = "trailer.bunks.board", s.trailer.bunks.board, Any, Measured,
        "the board's nominal size",
        "As it was sold, like 4x10; or give trailer.bunks.width and trailer.bunks.depth as taped.";
    TRAILER_BUNKS_WIDTH: Length = "trailer.bunks.width", s.trailer.bunks.width, Positive, Measured,
        "the board's size across, as it lies",
        "Tape it.",
        plausible: (inches(0.5), inches(16.0));
    TRAILER_BUNKS_DEPTH: Length = "trailer.bunks.depth", s.trailer.bunks.depth, Positive, Measured,
        "the board's size up and down, as it lies, before any bevel",
        "Tape it.",
        plausible: (inches(0.5), inches(16.0));
    TRAILER_BUNKS_LAY: Choice<Lay> = "trailer.bunks.lay", s.trailer.bunks.lay, Any, Defaulted,
        "how the boards lie",
        "edge: narrow face up, bevelled to the hull; flat: wide face up, tilted to it.",
        default: word("edge").assumed("common practice, no source");
    TRAILER_BUNKS_WOOD: Choice<Wood> = "trailer.bunks.wood", s.trailer.bunks.wood, Any, Measured,
        "the boards' species and grade",
        "From the stamp on the board; or give trailer.bunks.bending, shear and modulus.";
    TRAILER_BUNKS_BENDING: Stress = "trailer.bunks.bending", s.trailer.bunks.bending, Positive, Measured,
        "allowable bending stress, all adjustments made",
        "From the maker's sheet or an engineer; or give trailer.bunks.wood.",
        plausible: (pounds_a_square_inch(200.0), pounds_a_square_inch(5000.0));
    TRAILER_BUNKS_SHEAR: Stress = "trailer.bunks.shear", s.trailer.bunks.shear, Positive, Measured,
        "allowable shear stress, all adjustments made",
        "From the maker's sheet or an engineer; or give trailer.bunks.wood.",
        plausible: (pounds_a_square_inch(40.0), pounds_a_square_inch(800.0));
    TRAILER_BUNKS_MODULUS: Stress = "trailer.bunks.modulus", s.trailer.bunks.modulus, Positive, Measured,
        "modulus of elasticity, all adjustments made",
        "From the maker's sheet or an engineer; or give trailer.bunks.wood.",
        plausible: (pounds_a_square_inch(3e5), pounds_a_square_inch(4e6));
    TRAILER_BUNKS_BEARING: Stress = "trailer.bunks.bearing", s.trailer.bunks.bearing, Positive, Measured,
        "allowable stress across the grain, over a bracket, all adjustments made",
        "From the maker's sheet or an engineer; or give trailer.bunks.wood.",
        plausible: (pounds_a_square_inch(80.0), pounds_a_square_inch(3000.0));
    TRAILER_BUNKS_SERVICE: Choice<Service> = "trailer.bunks.service", s.trailer.bunks.service, Any, Defaulted,
        "whether the boards stay dry",
        "wet for a trailer that goes into the water; dry for boards kept under cover and out of it.",
        default: word("wet").assumed("the trailer goes into the water");
    TRAILER_BUNKS_SPACER: Length = "trailer.bunks.spacer", s.trailer.bunks.spacer, NotNegative, Defaulted,
        "packing between crossmember and bunk",
        "Tape it.",
        default: value(inches(0.0));
    TRAILER_BUNKS_LIFT_OFF: Flag = "trailer.bunks.lift_off", s.trailer.bunks.lift_off, Any, Defaulted,
        "whether the bunks only lie on their brackets",
        "true where nothing holds a bunk down; false where bolts do.",
        default: word("false");
    TRAILER_BUNKS_FRICTION: Share = "trailer.bunks.friction", s.trailer.bunks.friction, Positive, Defaulted,
        "friction between the wet hull and its bunks",
        "Weigh the pull that just drags the boat on level ground and divide it by the boat's weight: wet carpet 30 %, dry 45 %, slick pads 15 %, rollers 5 %.",
        default: value(percent(30.0)).assumed("wet carpet, common practice, no source")
            .within(Ends::Between(percent(15.0), percent(45.0)), Going::Alone),
        plausible: (percent(2.0), percent(90.0));
    TRAILER_BUNKS_BRACKETS_RATING: Weight = "trailer.bunks.brackets.rating", s.trailer.bunks.brackets.rating, Positive, Measured,
        "side load that one bracket may hold",
        "From the maker's sheet; or give the bolts' number and rating.",
        plausible: (pounds(50.0), pounds(20000.0));
    TRAILER_BUNKS_BRACKETS_BOLTS: Count = "trailer.bunks.brackets.bolts", s.trailer.bunks.brackets.bolts, Positive, Measured,
        "bolts through the bunk at each bracket",
        "Count them.";
    TRAILER_BUNKS_BRACKETS_BOLT_RATING: Weight = "trailer.bunks.brackets.bolt_rating", s.trailer.bunks.brackets.bolt_rating, Positive, Measured,
        "side load that one bolt may hold in the wood",
        "From a lumber connection table for its diameter and the wood.",
        plausible: (pounds(50.0), pounds(5000.0));
    TRAILER_BUNKS_BRACKETS_BOLT_SPACING: Length = "trailer.bunks.brackets.bolt_spacing", s.trailer.bunks.brackets.bolt_spacing, Positive, Measured,
        "between a bracket's bolts, along the bunk",
        "Tape it.";
    TRAILER_BUNKS_BRACKETS_BOLT_HEIGHT: Length = "trailer.bunks.brackets.bolt_height", s.trailer.bunks.brackets.bolt_height, Positive, Measured,
        "the bolts above the bunk's lower edge",
        "Tape it.";
    TRAILER_BUNKS_BRACKETS_BOLT_DIAMETER: Length = "trailer.bunks.brackets.bolt_diameter", s.trailer.bunks.brackets.bolt_diameter, Positive, Measured,
        "diameter of the bolts through the bunk",
        "Tape one, or read its size on the box; 1/2 in is usual.",
        plausible: (inches(0.2), inches(1.5));
    TRAILER_BUNKS_BRACKETS_BEARING_LENGTH: Length = "trailer.bunks.brackets.bearing_length", s.trailer.bunks.brackets.bearing_length, Positive, Measured,
        "how long a bunk lies on a bracket; leave it out where the bunk hangs on side bolts",
        "Tape along the bunk what it rests on.",
        plausible: (inches(0.5), inches(24.0));
    TRAILER_BUNKS_BRACKETS_FOOT: Length = "trailer.bunks.brackets.foot", s.trailer.bunks.brackets.foot, Positive, Measured,
        "width of a bracket's foot on the crossmember, bolt to bolt across the bunk",
        "Tape between the middles of its inner and outer bolts.",
        plausible: (inches(1.0), inches(24.0));
    TRAILER_BUNKS_BRACKETS_FOOT_RATING: Weight = "trailer.bunks.brackets.foot_rating", s.trailer.bunks.brackets.foot_rating, Positive, Measured,
        "upward pull that the inner bolts of a bracket's foot may hold",
        "From the bolts' grade and size, and the maker for the foot.",
        plausible: (pounds(50.0), pounds(30000.0));
    TRAILER_CROSSMEMBERS_STATION: Length = "trailer.crossmembers.*.station", s.trailer.crossmembers[at[0]].station, Positive, Measured,
        "the crossmember behind the ball",
        TAPE_X,
        plausible: (feet(1.0), feet(60.0));
    TRAILER_CROSSMEMBERS_TOP: Length = "trailer.crossmembers.*.top", s.trailer.crossmembers[at[0]].top, Positive, Measured,
        "its top above ground where the bunk's bracket stands",
        GROUND,
        plausible: (inches(4.0), inches(72.0));
    TRAILER_CROSSMEMBERS_CENTRE: Length = "trailer.crossmembers.*.centre", s.trailer.crossmembers[at[0]].centre, Positive, Measured,
        "its top above ground under the keel",
        GROUND;
    TRAILER_CROSSMEMBERS_RATING: Weight = "trailer.crossmembers.*.rating", s.trailer.crossmembers[at[0]].rating, Positive, Measured,
        "what it may carry from each bunk",
        "From the trailer's maker; or give its section_modulus and yield.",
        plausible: (pounds(100.0), pounds(20000.0));
    TRAILER_CROSSMEMBERS_SECTION_MODULUS: SectionModulus = "trailer.crossmembers.*.section_modulus", s.trailer.crossmembers[at[0]].section_modulus, Positive, Measured,
        "its section modulus for bending up and down",
        "From a table of steel sections for its shape, size and wall.",
        plausible: (cubic_inches(0.1), cubic_inches(50.0));
    TRAILER_CROSSMEMBERS_YIELD: Stress = "trailer.crossmembers.*.yield", s.trailer.crossmembers[at[0]].yield_stress, Positive, Measured,
        "yield stress of its metal",
        "36 ksi for common steel shapes, 46 or 50 ksi for most tube; ask the maker.",
        plausible: (pounds_a_square_inch(1e4), pounds_a_square_inch(1.2e5));
    TRAILER_FENDERS_HALF_BREADTH: Length = "trailer.fenders.half_breadth", s.trailer.fenders.half_breadth, Positive, Measured,
        "centreline to a fender's inner edge",
        "Tape between the fenders and halve it.",
        plausible: (inches(18.0), inches(66.0));
    TRAILER_FENDERS_HEIGHT: Length = "trailer.fenders.height", s.trailer.fenders.height, Positive, Measured,
        "the fenders' top above ground",
        GROUND,
        plausible: (inches(12.0), inches(72.0));
    TRAILER_FENDERS_FORWARD_END: Length = "trailer.fenders.forward_end", s.trailer.fenders.forward_end, Positive, Measured,
        "the fenders' forward end behind the ball",
        TAPE_X;
    TRAILER_FENDERS_AFT_END: Length = "trailer.fenders.aft_end", s.trailer.fenders.aft_end, Positive, Measured,
        "the fenders' aft end behind the ball",
        TAPE_X;
    TRAILER_BOW_BUNKS_FORWARD_END: Length = "trailer.bow_bunks.forward_end", s.trailer.bow_bunks.forward_end, Positive, Measured,
        "the bow bunks' forward end behind the ball",
        TAPE_X;
    TRAILER_BOW_BUNKS_AFT_END: Length = "trailer.bow_bunks.aft_end", s.trailer.bow_bunks.aft_end, Positive, Measured,
        "the bow bunks' aft end behind the ball",
        TAPE_X;
    TRAILER_BOW_BUNKS_FORWARD_TOP: Length = "trailer.bow_bunks.forward_top", s.trailer.bow_bunks.forward_top, Positive, Measured,
        "the bow bunks' top above ground at their forward end",
        GROUND;
    TRAILER_BOW_BUNKS_AFT_TOP: Length = "trailer.bow_bunks.aft_top", s.trailer.bow_bunks.aft_top, Positive, Measured,
        "the bow bunks' top above ground at their aft end",
        GROUND;
    TRAILER_BOW_BUNKS_BEARS: Flag = "trailer.bow_bunks.bears", s.trailer.bow_bunks.bears, Any, Measured,
        "whether the boat lies on the bow bunks too",
        "Slide a sheet of paper between hull and bow bunk: where it passes, nothing bears.";
    TRAILER_GUIDES_HEIGHT: Length = "trailer.guides.height", s.trailer.guides.height, Positive, Measured,
        "the middle of a side guide's pad above ground",
        GROUND;
    TRAILER_GUIDES_SIZE: Length = "trailer.guides.size", s.trailer.guides.size, Positive, Measured,
        "a side guide's pad from bottom to top",
        "Tape it.";
    TRAILER_GUIDES_HALF_SPACING: Length = "trailer.guides.half_spacing", s.trailer.guides.half_spacing, Positive, Measured,
        "centreline to the face of a side guide's pad",
        "Tape between the pads and halve it.";
    TRAILER_GUIDES_STATION: Length = "trailer.guides.station", s.trailer.guides.station, Positive, Measured,
        "the side guides' posts behind the ball",
        TAPE_X;
    TRAILER_GUIDES_TOP: Length = "trailer.guides.top", s.trailer.guides.top, Positive, Measured,
        "the tops of the side guides' posts above ground",
        GROUND,
        plausible: (inches(12.0), feet(15.0));
    TRAILER_KEEL_ROLLERS_FORWARD_END: Length = "trailer.keel_rollers.forward_end", s.trailer.keel_rollers.forward_end, Positive, Measured,
        "the first keel roller behind the ball, where rollers bear the keel instead of bunks",
        TAPE_X;
    TRAILER_KEEL_ROLLERS_AFT_END: Length = "trailer.keel_rollers.aft_end", s.trailer.keel_rollers.aft_end, Positive, Measured,
        "the last keel roller behind the ball",
        TAPE_X;
    TRAILER_LAMPS_HEIGHT: Length = "trailer.lamps_height", s.trailer.lamps_height, Positive, Measured,
        "the trailer's lamps above ground, at its aft end",
        GROUND,
        plausible: (inches(6.0), feet(10.0));
    TRAILER_SKIPPER_STATION: Length = "trailer.skipper.station", s.trailer.skipper.station, Any, Measured,
        "where the skipper stands while launching, behind the ball",
        TAPE_X,
        plausible: (feet(-15.0), feet(40.0));
    TRAILER_SKIPPER_HEIGHT: Length = "trailer.skipper.height", s.trailer.skipper.height, NotNegative, Measured,
        "how high the skipper stands above ground there",
        "Nothing on the ramp itself; else tape up to the step or frame.",
        plausible: (inches(0.0), feet(6.0));
}

lists! {
    s, at, i;

    "trailer.crossmembers", s.trailer.crossmembers, None;
}
