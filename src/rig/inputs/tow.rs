//! `[tow]`: the tow vehicle.

use super::prelude::*;

inputs! {
    s, at;

    TOW_NAME: Text = "tow.name", s.tow.name, Any, Informational,
        "what the tow vehicle is",
        PLAIN;
    TOW_FRONT_AXLE_LOAD: Weight = "tow.front_axle_load", s.tow.front_axle_load, NotNegative, Measured,
        "its front axle load, trailer off",
        SCALE_TOW,
        plausible: (pounds(600.0), pounds(12000.0));
    TOW_REAR_AXLE_LOAD: Weight = "tow.rear_axle_load", s.tow.rear_axle_load, NotNegative, Measured,
        "its rear axle load, trailer off",
        SCALE_TOW,
        plausible: (pounds(500.0), pounds(18000.0));
    TOW_WHEELBASE: Length = "tow.wheelbase", s.tow.wheelbase, Positive, Measured,
        "between its axles",
        "From its manual, or tape from hub to hub.",
        plausible: (feet(6.0), feet(22.0));
    TOW_BALL_OVERHANG: Length = "tow.ball_overhang", s.tow.ball_overhang, Positive, Measured,
        "its rear axle back to the ball",
        TAPE_X,
        plausible: (feet(1.0), feet(12.0));
    TOW_BALL_HEIGHT: Length = "tow.ball_height", s.tow.ball_height, Positive, Measured,
        "the ball's centre above ground, coupled",
        GROUND,
        default: rule("trailer.level_ball_height: the ball is taken at the height where the frame sits level"),
        plausible: (inches(8.0), inches(40.0));
    TOW_GVWR: Weight = "tow.gvwr", s.tow.gvwr, Positive, Measured,
        "its gross vehicle weight rating",
        DOOR,
        plausible: (pounds(1500.0), pounds(35000.0));
    TOW_FRONT_GAWR: Weight = "tow.front_gawr", s.tow.front_gawr, Positive, Measured,
        "its front axle weight rating",
        DOOR,
        plausible: (pounds(800.0), pounds(16000.0));
    TOW_REAR_GAWR: Weight = "tow.rear_gawr", s.tow.rear_gawr, Positive, Measured,
        "its rear axle weight rating",
        DOOR,
        plausible: (pounds(800.0), pounds(26000.0));
    TOW_GCWR: Weight = "tow.gcwr", s.tow.gcwr, Positive, Measured,
        "its gross combination weight rating",
        MANUAL,
        plausible: (pounds(2500.0), pounds(70000.0));
    TOW_TOW_RATING: Weight = "tow.tow_rating", s.tow.tow_rating, Positive, Measured,
        "gross trailer weight it may tow",
        MANUAL,
        plausible: (pounds(500.0), pounds(45000.0));
    TOW_TONGUE_RATING: Weight = "tow.tongue_rating", s.tow.tongue_rating, Positive, Measured,
        "tongue weight it may hold, by its maker",
        MANUAL,
        plausible: (pounds(50.0), pounds(6000.0));
    TOW_DRIVEN: Choice<Gripping> = "tow.driven", s.tow.driven, Any, Measured,
        "which axle drives",
        "front, rear or all.";
    TOW_AIR_SUSPENSION: Flag = "tow.air_suspension", s.tow.air_suspension, Any, Measured,
        "whether its driven axle rides on air springs",
        "true or false: look under its rear axle.",
        default: word("false");
    TOW_CG_HEIGHT: Length = "tow.cg_height", s.tow.cg_height, Positive, Defaulted,
        "its centre of gravity above ground",
        "Estimate it: near the door sills' tops in most pickups.",
        default: value(inches(28.0)).assumed("of a pickup, common practice, no source"),
        plausible: (inches(15.0), inches(60.0));
    TOW_HITCH_RATE: Rate = "tow.hitch_rate", s.tow.hitch_rate, Positive, Measured,
        "tongue weight over how far the ball sinks under it",
        "Measure the ball's height before and after coupling, and divide the tongue weight by the difference.",
        plausible: (pounds_an_inch(100.0), pounds_an_inch(6000.0));
    TOW_HOLDS_IN_GEAR: Slope = "tow.holds_in_gear", s.tow.holds_in_gear, Positive, Measured,
        "the grade that the tow vehicle holds alone, in gear, its brakes off",
        "Try it without the trailer, in the gear you would take.",
        plausible: (percent(2.0), percent(40.0));
    TOW_PARKING_BRAKE: Choice<Gripping> = "tow.parking_brake", s.tow.parking_brake, Any, Defaulted,
        "which axle the parking brake holds",
        "rear in nearly every pickup; front or all in a few.",
        default: word("rear");
    TOW_BODY_AFT_STATION: Length = "tow.body_aft.station", s.tow.body_aft.station, Any, Measured,
        "the rear of its body or bumper behind its rear axle",
        TAPE_X;
    TOW_BODY_AFT_HEIGHT: Length = "tow.body_aft.height", s.tow.body_aft.height, Any, Informational,
        "the top of that part above ground",
        GROUND;
    TOW_TAILPIPE_STATION: Length = "tow.tailpipe.station", s.tow.tailpipe.station, Any, Measured,
        "the end of its tailpipe behind its rear axle",
        TAPE_X,
        plausible: (feet(-10.0), feet(12.0));
    TOW_TAILPIPE_HEIGHT: Length = "tow.tailpipe.height", s.tow.tailpipe.height, Positive, Measured,
        "the lower edge of its tailpipe above ground",
        GROUND,
        plausible: (inches(4.0), feet(6.0));
    TOW_TIRE_RADIUS: Length = "tow.tire_radius", s.tow.tire_radius, Positive, Defaulted,
        "from its rear hub down to the ground",
        "Tape from the middle of a rear wheel to the ground.",
        default: value(inches(16.0)).assumed("the wheel of a large pickup, common practice, no source"),
        plausible: (inches(9.0), inches(28.0));
    TOW_TIRE_WET_LIMIT: Length = "tow.tire_wet_limit", s.tow.tire_wet_limit, NotNegative, Defaulted,
        "how deep its rear tires may stand in the water",
        "Your choice: what keeps hubs, brakes and tailpipe out of the water.",
        default: value(inches(8.0)).assumed("half way up to the hub, common practice, no source"),
        plausible: (inches(0.0), inches(36.0));
    TOW_LOW_POINTS_NAME: Text = "tow.low_points.*.name", s.tow.low_points[at[0]].name, Any, Defaulted,
        "what the low point is",
        PLAIN,
        default: rule("low point 1, low point 2 …");
    TOW_LOW_POINTS_STATION: Length = "tow.low_points.*.station", s.tow.low_points[at[0]].station, Any, Measured,
        "the low point behind its rear axle",
        TAPE_X;
    TOW_LOW_POINTS_HEIGHT: Length = "tow.low_points.*.height", s.tow.low_points[at[0]].height, Any, Measured,
        "the low point above ground",
        GROUND;
}

lists! {
    s, at, i;

    "tow.low_points", s.tow.low_points, s.tow.low_points[i].name.as_deref();
}
