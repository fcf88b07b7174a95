//! `[trailer.winch]`: its drum, its strap, its post, and what turns it.

use super::prelude::*;

inputs! {
    s, at;

    TRAILER_WINCH_RATING: Weight = "trailer.winch.rating", s.trailer.winch.rating, Positive, Measured,
        "what the winch may pull on the first layer of its drum",
        STAMPED,
        plausible: (pounds(200.0), pounds(20000.0));
    TRAILER_WINCH_CORE: Length = "trailer.winch.core", s.trailer.winch.core, Positive, Measured,
        "diameter of the bare drum",
        "Pay out all of the strap and tape across the drum.",
        plausible: (inches(0.5), inches(8.0));
    TRAILER_WINCH_FLANGE: Length = "trailer.winch.flange", s.trailer.winch.flange, Positive, Measured,
        "diameter of the drum's flange",
        "Tape across it.",
        plausible: (inches(1.5), inches(24.0));
    TRAILER_WINCH_STATION: Length = "trailer.winch.station", s.trailer.winch.station, Any, Measured,
        "the drum's axis behind the ball",
        TAPE_X,
        plausible: (feet(-2.0), feet(30.0));
    TRAILER_WINCH_HEIGHT: Length = "trailer.winch.height", s.trailer.winch.height, Positive, Measured,
        "the drum's axis above ground",
        GROUND,
        plausible: (inches(12.0), inches(144.0));
    TRAILER_WINCH_AFLOAT: Share = "trailer.winch.afloat", s.trailer.winch.afloat, NotNegative, Defaulted,
        "share of the boat that floats while the winch pulls",
        "Judge it by how deep you back in: none where the boat is dragged up whole.",
        default: value(percent(0.0)).assumed("the boat is dragged up whole");
    TRAILER_WINCH_DRIVE: Choice<Drive> = "trailer.winch.drive", s.trailer.winch.drive, Any, Measured,
        "what turns the winch",
        "electric or hand.";
    TRAILER_WINCH_GEAR: Factor = "trailer.winch.gear", s.trailer.winch.gear, Positive, Measured,
        "turns of the handle to one of the drum",
        "Stamped on it as 5:1, or count the turns. Of an electric winch, those of its emergency handle.";
    TRAILER_WINCH_HANDLE: Length = "trailer.winch.handle", s.trailer.winch.handle, Positive, Measured,
        "radius of the winch's handle",
        "Tape from its axis to the middle of the grip.",
        plausible: (inches(3.0), inches(24.0));
    TRAILER_WINCH_EFFICIENCY: Share = "trailer.winch.efficiency", s.trailer.winch.efficiency, Positive, Defaulted,
        "what the gear leaves of the work at the handle",
        "Hang a known weight on the strap and weigh the pull at the grip.",
        default: value(percent(75.0)).assumed("spur gears, common practice, no source")
            .within(Ends::Between(percent(60.0), percent(90.0)), Going::Alone),
        plausible: (percent(20.0), percent(100.0));
    TRAILER_WINCH_NO_LOAD_CURRENT: Current = "trailer.winch.no_load_current", s.trailer.winch.no_load_current, Positive, Measured,
        "the motor's current without load",
        "From its label or sheet.";
    TRAILER_WINCH_NO_LOAD_SPEED: Speed = "trailer.winch.no_load_speed", s.trailer.winch.no_load_speed, Positive, Measured,
        "speed of the line without load, on the first layer",
        "From the winch's label or sheet.";
    TRAILER_WINCH_RATED_CURRENT: Current = "trailer.winch.rated_current", s.trailer.winch.rated_current, Positive, Measured,
        "the motor's current at the rated pull",
        "From its label or sheet.";
    TRAILER_WINCH_RATED_SPEED: Speed = "trailer.winch.rated_speed", s.trailer.winch.rated_speed, Positive, Measured,
        "speed of the line at the rated pull, on the first layer",
        "From the winch's label or sheet.";
    TRAILER_WINCH_BATTERY: Charge = "trailer.winch.battery", s.trailer.winch.battery, Positive, Measured,
        "what the winch's battery holds",
        "From its label, in ampere-hours.";
    TRAILER_WINCH_STRAP_KIND: Choice<WinchLine> = "trailer.winch.strap.kind", s.trailer.winch.strap.kind, Any, Defaulted,
        "what the winch winds up",
        "strap, wire or rope.",
        default: word("strap");
    TRAILER_WINCH_STRAP_LENGTH: Length = "trailer.winch.strap.length", s.trailer.winch.strap.length, Positive, Measured,
        "length of the winch's strap, all of it",
        "Pay it out and tape it.",
        plausible: (feet(2.0), feet(150.0));
    TRAILER_WINCH_STRAP_THICKNESS: Length = "trailer.winch.strap.thickness", s.trailer.winch.strap.thickness, Positive, Measured,
        "thickness of the strap, or of wire or rope",
        "Measure ten layers pressed together and divide by ten.",
        plausible: (inches(0.02), inches(1.0));
    TRAILER_WINCH_STRAP_BREAKING: Weight = "trailer.winch.strap.breaking", s.trailer.winch.strap.breaking, Positive, Measured,
        "least breaking strength of the winch's strap, hook and shackle",
        "From the strap's label and the stamps on hook and shackle.",
        plausible: (pounds(500.0), pounds(60000.0));
    TRAILER_WINCH_STRAP_WORKING: Weight = "trailer.winch.strap.working", s.trailer.winch.strap.working, Positive, Measured,
        "least working limit of the winch's strap, hook and shackle",
        "From the strap's label and the stamps on hook and shackle.",
        default: rule("a third of its breaking strength"),
        plausible: (pounds(150.0), pounds(20000.0));
    TRAILER_WINCH_POST_STATION: Length = "trailer.winch.post.station", s.trailer.winch.post.station, Any, Measured,
        "the foot of the winch's post behind the ball",
        TAPE_X;
    TRAILER_WINCH_POST_HEIGHT: Length = "trailer.winch.post.height", s.trailer.winch.post.height, Positive, Measured,
        "the foot of the winch's post above ground",
        GROUND;
    TRAILER_WINCH_POST_MOMENT: Moment = "trailer.winch.post.moment", s.trailer.winch.post.moment, Positive, Measured,
        "what the winch's post may bear at its foot",
        "From the trailer's maker; or give its section_modulus and yield.",
        plausible: (pound_inches(2000.0), pound_inches(2e6));
    TRAILER_WINCH_POST_SECTION_MODULUS: SectionModulus = "trailer.winch.post.section_modulus", s.trailer.winch.post.section_modulus, Positive, Measured,
        "section modulus of the winch's post at its foot, for bending fore and aft",
        "From a table of steel sections for its shape, size and wall.",
        plausible: (cubic_inches(0.1), cubic_inches(50.0));
    TRAILER_WINCH_POST_YIELD: Stress = "trailer.winch.post.yield", s.trailer.winch.post.yield_stress, Positive, Measured,
        "yield stress of the post's metal",
        "36 ksi for common steel shapes, 46 or 50 ksi for most tube; ask the maker.",
        plausible: (pounds_a_square_inch(1e4), pounds_a_square_inch(1.2e5));
}
