//! `[trailer]`: its own weight and sizes, its coupler, jack and low points.

use super::prelude::*;

inputs! {
    s, at;

    TRAILER_WEIGHT: Weight = "trailer.weight", s.trailer.weight, Positive, Measured,
        "the trailer's own weight",
        "Weigh it empty, wheels and coupler; or give trailer.capacity from its label.",
        plausible: (pounds(100.0), pounds(9000.0));
    TRAILER_CAPACITY: Weight = "trailer.capacity", s.trailer.capacity, Positive, Measured,
        "what the trailer may carry",
        PLACARD,
        plausible: (pounds(150.0), pounds(27000.0));
    TRAILER_TONGUE_WEIGHT: Weight = "trailer.tongue_weight", s.trailer.tongue_weight, NotNegative, Measured,
        "tongue weight of the empty trailer",
        "Weigh at the coupler, frame level, boat off; or give trailer.cg.",
        plausible: (pounds(0.0), pounds(2000.0));
    TRAILER_CG: Length = "trailer.cg", s.trailer.cg, Any, Measured,
        "the empty trailer's centre of gravity behind the ball",
        "Find where it balances, or give trailer.tongue_weight.",
        plausible: (feet(2.0), feet(45.0));
    TRAILER_CG_HEIGHT: Length = "trailer.cg_height", s.trailer.cg_height, Any, Defaulted,
        "the empty trailer's centre of gravity above ground",
        "Estimate it: a little above the hubs.",
        default: rule("8 in above the hubs"),
        plausible: (inches(8.0), inches(60.0));
    TRAILER_GVWR: Weight = "trailer.gvwr", s.trailer.gvwr, Positive, Measured,
        "gross vehicle weight rating",
        PLACARD,
        plausible: (pounds(300.0), pounds(30000.0));
    TRAILER_LENGTH: Length = "trailer.length", s.trailer.length, Positive, Measured,
        "ball to the trailer's aft end",
        TAPE_X,
        plausible: (feet(8.0), feet(60.0));
    TRAILER_WIDTH: Length = "trailer.width", s.trailer.width, Positive, Measured,
        "width over all",
        "Tape across the fenders.",
        plausible: (feet(3.0), feet(12.0));
    TRAILER_BOW_STOP: Length = "trailer.bow_stop", s.trailer.bow_stop, Positive, Measured,
        "ball to where the bow eye comes home",
        "Tape along the ground between plumb lines at the ball and the bow eye; or give trailer.transom.",
        plausible: (feet(0.5), feet(30.0));
    TRAILER_TRANSOM: Length = "trailer.transom", s.trailer.transom, Positive, Measured,
        "ball to the boat's transom",
        TAPE_X,
        plausible: (feet(7.0), feet(60.0));
    TRAILER_BOW_STOP_HEIGHT: Length = "trailer.bow_stop_height", s.trailer.bow_stop_height, Any, Measured,
        "the bow stop above ground",
        GROUND,
        plausible: (inches(12.0), inches(144.0));
    TRAILER_KEEL_HEIGHT: Length = "trailer.keel_height", s.trailer.keel_height, Any, Measured,
        "the boat's keel above ground, on the bunks",
        GROUND,
        default: rule("by the bunks' height and spacing and the deadrise"),
        plausible: (inches(4.0), inches(72.0));
    TRAILER_LEVEL_BALL_HEIGHT: Length = "trailer.level_ball_height", s.trailer.level_ball_height, Positive, Correction,
        "ball height at which the frame sits level",
        "Raise or lower the coupler until a level on the frame rail reads zero, then tape up to the ball's centre.",
        default: rule("tow.ball_height: the frame is taken to sit level as towed"),
        plausible: (inches(8.0), inches(40.0));
    TRAILER_LEVEL_MEASURED: Choice<LevelMeasured> = "trailer.level_measured", s.trailer.level_measured, Any, Correction,
        "how the rig was loaded when the frame was found level",
        "loaded or empty.",
        default: word("loaded");
    TRAILER_TRACK: Length = "trailer.track", s.trailer.track, Positive, Measured,
        "between the wheels' centres, side to side",
        "Tape from a tire's outer edge on one side to the inner edge on the other.",
        plausible: (feet(3.0), feet(10.0));
    TRAILER_COUPLER_RATING: Weight = "trailer.coupler.rating", s.trailer.coupler.rating, Positive, Measured,
        "gross trailer weight the coupler may hold",
        STAMPED,
        plausible: (pounds(500.0), pounds(40000.0));
    TRAILER_COUPLER_TONGUE_RATING: Weight = "trailer.coupler.tongue_rating", s.trailer.coupler.tongue_rating, Positive, Measured,
        "tongue weight the coupler may hold",
        STAMPED,
        plausible: (pounds(40.0), pounds(6000.0));
    TRAILER_COUPLER_BALL_SIZE: Length = "trailer.coupler.ball_size", s.trailer.coupler.ball_size, Positive, Measured,
        "the ball the coupler's socket takes",
        STAMPED,
        plausible: (inches(1.5), inches(3.5));
    TRAILER_COUPLER_D_VALUE: Force = "trailer.coupler.d_value", s.trailer.coupler.d_value, Positive, Measured,
        "D on the coupling head's plate",
        PLATE,
        plausible: (kilonewtons(1.0), kilonewtons(250.0));
    TRAILER_DRAWBAR_D_VALUE: Force = "trailer.drawbar.d_value", s.trailer.drawbar.d_value, Positive, Measured,
        "D on the drawbar's plate",
        PLATE,
        plausible: (kilonewtons(1.0), kilonewtons(250.0));
    TRAILER_DRAWBAR_DC_VALUE: Force = "trailer.drawbar.dc_value", s.trailer.drawbar.dc_value, Positive, Measured,
        "Dc on the drawbar's plate",
        PLATE,
        plausible: (kilonewtons(1.0), kilonewtons(250.0));
    TRAILER_DRAWBAR_V_VALUE: Force = "trailer.drawbar.v_value", s.trailer.drawbar.v_value, Positive, Measured,
        "V on the drawbar's plate",
        PLATE,
        plausible: (kilonewtons(1.0), kilonewtons(150.0));
    TRAILER_DRAWBAR_TONGUE_RATING: Weight = "trailer.drawbar.tongue_rating", s.trailer.drawbar.tongue_rating, Positive, Measured,
        "tongue weight the drawbar may hold: S on its plate",
        PLATE,
        plausible: (pounds(40.0), pounds(6000.0));
    TRAILER_DRAWBAR_BODY: Length = "trailer.drawbar.body", s.trailer.drawbar.body, Positive, Measured,
        "length of the body behind the drawbar, the boat's where that is longer",
        TAPE_X,
        plausible: (feet(3.0), feet(60.0));
    TRAILER_JACK_RATING: Weight = "trailer.jack.rating", s.trailer.jack.rating, Positive, Measured,
        "what the tongue jack may lift",
        STAMPED,
        plausible: (pounds(100.0), pounds(15000.0));
    TRAILER_JACK_STATION: Length = "trailer.jack.station", s.trailer.jack.station, NotNegative, Measured,
        "the jack behind the ball",
        TAPE_X,
        default: rule("at the ball").within(Ends::Between(feet(0.0), feet(4.0)), Going::Alone),
        plausible: (feet(0.0), feet(12.0));
    TRAILER_BOW_STOP_RATING: Weight = "trailer.bow_stop_rating", s.trailer.bow_stop_rating, Positive, Measured,
        "what may push forward against the bow stop",
        "From the trailer's maker, where he states one; leave it out otherwise.",
        plausible: (pounds(200.0), pounds(40000.0));
    TRAILER_SAFETY_CHAINS_COUNT: Count = "trailer.safety_chains.count", s.trailer.safety_chains.count, Positive, Measured,
        "how many safety chains hold the trailer",
        "Count those that are hooked on.";
    TRAILER_SAFETY_CHAINS_BREAKING: Weight = "trailer.safety_chains.breaking", s.trailer.safety_chains.breaking, Positive, Measured,
        "breaking strength of one safety chain, hooks and anchors included",
        "From the tag on the chain, or its maker's sheet; the least of chain, hook and anchor.",
        plausible: (pounds(500.0), pounds(60000.0));
    TRAILER_LOW_POINTS_NAME: Text = "trailer.low_points.*.name", s.trailer.low_points[at[0]].name, Any, Defaulted,
        "what the low point is",
        PLAIN,
        default: rule("low point 1, low point 2 …");
    TRAILER_LOW_POINTS_STATION: Length = "trailer.low_points.*.station", s.trailer.low_points[at[0]].station, Any, Measured,
        "the low point behind the ball",
        TAPE_X;
    TRAILER_LOW_POINTS_HEIGHT: Length = "trailer.low_points.*.height", s.trailer.low_points[at[0]].height, Any, Measured,
        "the low point above ground",
        GROUND;
}

lists! {
    s, at, i;

    "trailer.low_points", s.trailer.low_points, s.trailer.low_points[i].name.as_deref();
}
