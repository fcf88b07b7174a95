//! `[trailer.brakes]`, and the brakes of each axle.

use super::prelude::*;

inputs! {
    s, at;

    TRAILER_BRAKES_KIND: Choice<BrakeSystem> = "trailer.brakes.kind", s.trailer.brakes.kind, Any, Measured,
        "what works the trailer's brakes",
        "surge: a coupler that slides; electric: a cable to a controller; electric-hydraulic: that, and a pump; none.";
    TRAILER_BRAKES_MADE_FOR: Choice<BrakeType> = "trailer.brakes.made_for", s.trailer.brakes.made_for, Any, Measured,
        "what brakes the actuator is made for",
        "disc or drum: on the actuator's label.";
    TRAILER_BRAKES_LEAST_GROSS: Weight = "trailer.brakes.least_gross", s.trailer.brakes.least_gross, Positive, Measured,
        "the lightest trailer that the actuator is made for",
        "On the actuator's label.",
        plausible: (pounds(200.0), pounds(20000.0));
    TRAILER_BRAKES_GREATEST_GROSS: Weight = "trailer.brakes.greatest_gross", s.trailer.brakes.greatest_gross, Positive, Measured,
        "the heaviest trailer that the actuator is made for",
        "On the actuator's label.",
        plausible: (pounds(500.0), pounds(40000.0));
    TRAILER_BRAKES_TONGUE_RATING: Weight = "trailer.brakes.tongue_rating", s.trailer.brakes.tongue_rating, Positive, Measured,
        "tongue weight the actuator may hold",
        "On the actuator's label.",
        plausible: (pounds(40.0), pounds(6000.0));
    TRAILER_BRAKES_BORE: Length = "trailer.brakes.bore", s.trailer.brakes.bore, Positive, Measured,
        "bore of the actuator's master cylinder",
        "Cast or stamped on the cylinder; else tape its piston.",
        plausible: (inches(0.4), inches(2.5));
    TRAILER_BRAKES_LEVERAGE: Factor = "trailer.brakes.leverage", s.trailer.brakes.leverage, Positive, Measured,
        "how many times the push at the coupler acts on the master piston",
        "1 where the coupler slides straight onto it; else the longer arm of the lever over the shorter.",
        default: value(1.0).assumed("a straight slide, common practice, no source");
    TRAILER_BRAKES_EFFICIENCY: Share = "trailer.brakes.efficiency", s.trailer.brakes.efficiency, Positive, Measured,
        "what is left of a push at the pistons after friction",
        "From a gauge in the line, if ever one was screwed in; else leave it out.",
        default: value(percent(90.0)).assumed("common practice, no source").within(Ends::Between(percent(80.0), percent(100.0)), Going::Alone),
        plausible: (percent(40.0), percent(100.0));
    TRAILER_BRAKES_STROKE: Length = "trailer.brakes.stroke", s.trailer.brakes.stroke, Positive, Measured,
        "how far the master piston can travel",
        "From the maker's sheet; or push the coupler home, fluid drained, and tape how far it slides, divided by the leverage.",
        plausible: (inches(0.4), inches(6.0));
    TRAILER_BRAKES_HOSE: Length = "trailer.brakes.hose", s.trailer.brakes.hose, NotNegative, Measured,
        "rubber hose in the brake lines, all together",
        "Tape it; steel tube does not count.",
        default: value(feet(4.0)).assumed("common practice, no source"),
        plausible: (inches(0.0), feet(60.0));
    TRAILER_BRAKES_PRELOAD: Weight = "trailer.brakes.preload", s.trailer.brakes.preload, NotNegative, Measured,
        "push that the actuator's spring and friction hold back",
        "With a bathroom scale between coupler and a wall: what it reads when the lines begin to build pressure.",
        default: rule("preload_share of the gross trailer weight"),
        plausible: (pounds(0.0), pounds(2000.0));
    TRAILER_BRAKES_PRELOAD_SHARE: Share = "trailer.brakes.preload_share", s.trailer.brakes.preload_share, NotNegative, Measured,
        "the same as a share of the gross trailer weight, where `preload` is not stated",
        "Leave it out, or measure `preload`.",
        default: value(percent(3.0)).assumed("2 to 4 % is the threshold that UN R13, annex 12, allows an overrun coupling, from memory").within(Ends::Between(percent(2.0), percent(4.0)), Going::Alone),
        plausible: (percent(0.0), percent(10.0));
    TRAILER_BRAKES_PRESSURE_MAX: LinePressure = "trailer.brakes.pressure_max", s.trailer.brakes.pressure_max, Positive, Measured,
        "pressure at which a valve stops the line's rising",
        "On the actuator's label.",
        plausible: (pounds_a_square_inch(300.0), pounds_a_square_inch(3000.0));
    TRAILER_BRAKES_RELEASE_PUSH: Weight = "trailer.brakes.release_push", s.trailer.brakes.release_push, Any, Measured,
        "push down to which the actuator holds its pressure once the tow vehicle's brakes are off",
        "From the maker's sheet; negative where a latch must be pulled open.",
        plausible: (pounds(-1000.0), pounds(2000.0));
    TRAILER_BRAKES_SLIDE_FRICTION: Weight = "trailer.brakes.slide_friction", s.trailer.brakes.slide_friction, NotNegative, Measured,
        "friction of an actuator that holds no pressure",
        "Half of what a scale reads between pushing it in and letting it out.",
        plausible: (pounds(0.0), pounds(1000.0));
    TRAILER_BRAKES_GAIN: Factor = "trailer.brakes.gain", s.trailer.brakes.gain, Positive, Measured,
        "brake force of the whole trailer for each pound of push, instead of the parts that make it",
        "From the maker's sheet.";
    TRAILER_BRAKES_SETTING: Share = "trailer.brakes.setting", s.trailer.brakes.setting, NotNegative, Measured,
        "share of full force at which an electric controller stands in a stop",
        "On the controller.",
        default: value(percent(100.0)).assumed("the controller turned up, common practice, no source");
    TRAILER_BRAKES_FLUID: Choice<BrakeFluid> = "trailer.brakes.fluid", s.trailer.brakes.fluid, Any, Measured,
        "the fluid in the lines",
        "DOT 3 or DOT 4: on the reservoir's cap.",
        default: word("DOT 3").assumed("the lower of the two boiling points");
    TRAILER_BRAKES_REVERSE: Choice<Reverse> = "trailer.brakes.reverse", s.trailer.brakes.reverse, Any, Defaulted,
        "what keeps the brakes off while you back up",
        "lock-out: a valve or a key; free-backing: drums that let go; none.";
    TRAILER_BRAKES_BREAKAWAY: Flag = "trailer.brakes.breakaway", s.trailer.brakes.breakaway, Any, Defaulted,
        "whether a breakaway cable sets the brakes if the trailer comes loose",
        "Look for a thin cable or chain from the actuator.";
    TRAILER_AXLES_BRAKES_KIND: Choice<WheelBrakeKind> = "trailer.axles.*.brakes.kind", s.trailer.axles[at[0]].brakes.kind, Any, Measured,
        "the brakes at the axle's wheels",
        "disc; drum: each shoe anchored; drum-servo: shoes that push each other both ways; drum-servo-forward: one way; electric.";
    TRAILER_AXLES_BRAKES_PISTON: Length = "trailer.axles.*.brakes.piston", s.trailer.axles[at[0]].brakes.piston, Positive, Measured,
        "diameter of a piston at the wheel",
        "Of caliper or wheel cylinder: cast on it, or from the maker's sheet.",
        plausible: (inches(0.4), inches(4.0));
    TRAILER_AXLES_BRAKES_PISTONS: Factor = "trailer.axles.*.brakes.pistons", s.trailer.axles[at[0]].brakes.pistons, Positive, Measured,
        "how many pistons press on one side of a disc, or at one end of a wheel cylinder",
        "Count them.",
        default: value(1.0);
    TRAILER_AXLES_BRAKES_CALIPER: Choice<Caliper> = "trailer.axles.*.brakes.caliper", s.trailer.axles[at[0]].brakes.caliper, Any, Measured,
        "whether the caliper slides or has pistons on both sides",
        "floating or fixed.",
        default: word("floating").assumed("common practice, no source");
    TRAILER_AXLES_BRAKES_RADIUS: Length = "trailer.axles.*.brakes.radius", s.trailer.axles[at[0]].brakes.radius, Positive, Measured,
        "radius at which the brake drags",
        "Disc: half its diameter less half the pad's height; drum: half its inner diameter.",
        plausible: (inches(2.0), inches(9.0));
    TRAILER_AXLES_BRAKES_FRICTION: Share = "trailer.axles.*.brakes.friction", s.trailer.axles[at[0]].brakes.friction, Positive, Measured,
        "friction of the pads",
        "By the edge code on the pad: E 25 to 35 %, F 35 to 45 %.",
        default: value(percent(35.0)).assumed("edge code of SAE J866, from memory; 30 to 42 % quoted").within(Ends::Between(percent(30.0), percent(42.0)), Going::Alone),
        plausible: (percent(10.0), percent(60.0));
    TRAILER_AXLES_BRAKES_FACTOR: Factor = "trailer.axles.*.brakes.factor", s.trailer.axles[at[0]].brakes.factor, Positive, Measured,
        "drag of a drum's two shoes over the force of one piston",
        "From the maker's sheet; else leave it out.",
        default: rule("drum 2.0, drum-servo 4.5, drum-servo-forward 3.5").within(Ends::Times(0.7, 1.3), Going::Alone);
    TRAILER_AXLES_BRAKES_TRAVEL: Length = "trailer.axles.*.brakes.travel", s.trailer.axles[at[0]].brakes.travel, Positive, Measured,
        "travel of a piston until its pad or shoe grips",
        "With a feeler gauge at the pad, brakes off; drums: adjust them first.",
        default: rule("disc 0.030 in, drum 0.06 in; half and one and a half times that are tried"),
        plausible: (inches(0.005), inches(0.3));
    TRAILER_AXLES_BRAKES_WEIGHT: Weight = "trailer.axles.*.brakes.weight", s.trailer.axles[at[0]].brakes.weight, Positive, Measured,
        "weight of one disc or drum",
        "From the maker's sheet, or a kitchen scale.",
        default: rule("disc up to 10 in 5 kg, up to 12 in 8 kg; drum 10 kg"),
        plausible: (pounds(4.0), pounds(100.0));
    TRAILER_AXLES_BRAKES_ONE_PIECE: Flag = "trailer.axles.*.brakes.one_piece", s.trailer.axles[at[0]].brakes.one_piece, Any, Measured,
        "whether hub and disc or drum are one casting",
        "Look: a separate disc comes off the hub when the wheel is off.",
        default: word("false");
    TRAILER_AXLES_BRAKES_DIAMETER: Length = "trailer.axles.*.brakes.diameter", s.trailer.axles[at[0]].brakes.diameter, Positive, Measured,
        "diameter of the disc",
        "Tape across it.",
        plausible: (inches(6.0), inches(18.0));
    TRAILER_AXLES_BRAKES_CALIPER_SHARE: Share = "trailer.axles.*.brakes.caliper_share", s.trailer.axles[at[0]].brakes.caliper_share, Positive, Measured,
        "rise of the fluid's temperature as a share of the disc's",
        "Nobody measures it; leave it out.",
        default: value(1.0 / 3.0).assumed("common practice, no source").within(Ends::Between(0.25, 0.5), Going::Alone);
    TRAILER_AXLES_BRAKES_FORCE: Weight = "trailer.axles.*.brakes.force", s.trailer.axles[at[0]].brakes.force, Positive, Measured,
        "full force of one wheel's electric brake at the ground",
        "From the maker's sheet.",
        default: rule("0.435 of half the axle's rating"),
        plausible: (pounds(50.0), pounds(5000.0));
    TRAILER_SUSPENSION_SPRING_LENGTH: Length = "trailer.suspension.spring_length", s.trailer.suspension.spring_length, Positive, Measured,
        "length of a leaf spring between its ends",
        "Tape from end to end along the frame.",
        default: value(inches(26.0)).assumed("common practice, no source"),
        plausible: (inches(12.0), inches(60.0));
    TRAILER_SUSPENSION_EYE_HEIGHT: Length = "trailer.suspension.eye_height", s.trailer.suspension.eye_height, Positive, Measured,
        "height above ground of the spring's end that holds the axle, or of a single radius rod at the axle",
        GROUND,
        default: rule("the height of the hubs"),
        plausible: (inches(5.0), inches(40.0));
    TRAILER_SUSPENSION_RADIUS_RODS: Choice<RadiusRods> = "trailer.suspension.radius_rods", s.trailer.suspension.radius_rods, Any, Measured,
        "radius rods on each side of an axle",
        "none, one, or a pair, one above the other.",
        default: word("none").assumed("common practice, no source");
    TRAILER_SUSPENSION_THRUST: Choice<Thrust> = "trailer.suspension.thrust", s.trailer.suspension.thrust, Any, Measured,
        "what holds the axle behind an equalizer along the frame",
        "frame: its spring is pinned to a hanger; equalizer: it is bolted to the equalizer.";
    TRAILER_SUSPENSION_PIN_DROP: Length = "trailer.suspension.pin_drop", s.trailer.suspension.pin_drop, Any, Measured,
        "how far the pin that takes an axle's thrust lies below the equalizer's pivot",
        "Tape it; above the pivot is negative.",
        default: value(0.0).assumed("that the frame holds every axle, common practice, no source").within(Ends::Between(inches(-1.5), inches(1.5)), Going::WhileBraking),
        plausible: (inches(-6.0), inches(6.0));
    TRAILER_SUSPENSION_PIN_ARM: Length = "trailer.suspension.pin_arm", s.trailer.suspension.pin_arm, Positive, Measured,
        "from an equalizer's pivot to its end, along the frame",
        "Tape it.",
        default: value(inches(3.0)).assumed("common practice, no source"),
        plausible: (inches(1.0), inches(24.0));
    TRAILER_SUSPENSION_ARM: Length = "trailer.suspension.arm", s.trailer.suspension.arm, Positive, Measured,
        "length of a torsion axle's arm along the frame, loaded",
        "From the axle tube's middle to the spindle's, along the ground.",
        default: value(inches(6.0)).assumed("the usual arm, level when loaded, from a published articulation table"),
        plausible: (inches(2.0), inches(14.0));
    TRAILER_SUSPENSION_PIVOT_HEIGHT: Length = "trailer.suspension.pivot_height", s.trailer.suspension.pivot_height, Positive, Measured,
        "height of a torsion axle's tube above ground, loaded",
        GROUND,
        default: rule("the height of the hubs").within(Ends::Around(inches(2.3)), Going::Alone),
        plausible: (inches(4.0), inches(40.0));
}
