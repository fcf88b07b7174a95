//! `[boat]`: its hull, its parts and what it carries.

use super::prelude::*;

inputs! {
    s, at;

    BOAT_NAME: Text = "boat.name", s.boat.name, Any, Informational,
        "the boat's name",
        PLAIN;
    BOAT_LENGTH: Length = "boat.length", s.boat.length, Positive, Measured,
        "the boat's length",
        "Tape over all, transom to bow.",
        plausible: (feet(6.0), feet(60.0));
    BOAT_BEAM: Length = "boat.beam", s.boat.beam, Positive, Measured,
        "the boat's beam",
        "Tape across at the widest place.",
        plausible: (feet(3.0), feet(20.0));
    BOAT_TOP: Length = "boat.top", s.boat.top, Positive, Measured,
        "the highest point above the keel line, as it is towed",
        "Lay a straight board over the highest point, tape down to the ground, and take off the keel's height.",
        plausible: (feet(1.0), feet(20.0));
    BOAT_BOW_EYE_STATION: Length = "boat.bow_eye.station", s.boat.bow_eye.station, Positive, Measured,
        "the bow eye, forward of the transom",
        TAPE_STATION,
        plausible: (feet(4.0), feet(60.0));
    BOAT_BOW_EYE_HEIGHT: Length = "boat.bow_eye.height", s.boat.bow_eye.height, Any, Measured,
        "the bow eye, above the keel line",
        TAPE_KEEL,
        plausible: (inches(2.0), inches(144.0));
    BOAT_BOW_EYE_RATING: Weight = "boat.bow_eye.rating", s.boat.bow_eye.rating, Positive, Measured,
        "what may pull at the bow eye",
        "From the boat's builder, or by its bolt and backing plate.",
        plausible: (pounds(200.0), pounds(40000.0));
    BOAT_CG_HEIGHT: Length = "boat.cg_height", s.boat.cg_height, Any, Measured,
        "centre of gravity of a boat known from scales, above the keel line",
        "Estimate it: the engine's top is near it in most launches.",
        plausible: (feet(0.0), feet(12.0));
    BOAT_CG_SIDE: Length = "boat.cg_side", s.boat.cg_side, Any, Defaulted,
        "centre of gravity of a boat known from scales, to starboard",
        "Weigh the two sides apart, or leave it on the centreline.",
        default: value(inches(0.0)).assumed("a scale does not show the side: taken on the centreline");
    BOAT_BOW_OVERHANG: Length = "boat.bow_overhang", s.boat.bow_overhang, NotNegative, Measured,
        "how far the bow reaches ahead of the bow eye",
        "Tape along the keel line from a plumb line at the bow's tip to the bow eye.",
        plausible: (feet(0.0), feet(20.0));
    BOAT_WINDAGE_AREA: Area = "boat.windage.area", s.boat.windage.area, Positive, Measured,
        "side area of boat and trailer, on which the wind presses",
        "From a photograph taken square to the side: length times mean height of what stands against the sky.",
        plausible: (square_feet(10.0), square_feet(600.0));
    BOAT_WINDAGE_STATION: Length = "boat.windage.station", s.boat.windage.station, Any, Measured,
        "the middle of that area, forward of the transom",
        TAPE_STATION;
    BOAT_WINDAGE_HEIGHT: Length = "boat.windage.height", s.boat.windage.height, Positive, Measured,
        "the middle of that area above ground",
        GROUND,
        plausible: (feet(1.0), feet(15.0));
    BOAT_HULL_DEADRISE: Angle = "boat.hull.deadrise", s.boat.hull.deadrise, NotNegative, Measured,
        "angle of the bottom, one side, above level",
        "Level across the keel at the bunks; lay a bevel gauge on the bottom. One angle, or a list of { station, deadrise }.";
    BOAT_HULL_DEADRISE_STATION: Length = "boat.hull.deadrise.*.station", s.boat.hull.deadrise_at[at[0]].station, Any, Measured,
        "where a deadrise was taken, forward of the transom",
        TAPE_STATION;
    BOAT_HULL_DEADRISE_DEADRISE: Angle = "boat.hull.deadrise.*.deadrise", s.boat.hull.deadrise_at[at[0]].deadrise, NotNegative, Measured,
        "deadrise there",
        "Lay a bevel gauge on the bottom.";
    BOAT_HULL_CHINE_HALF_BREADTH: Length = "boat.hull.chine.half_breadth", s.boat.hull.chine.half_breadth, Positive, Measured,
        "the chine from the centreline, over the bunks",
        "Tape across from chine to chine and halve it.";
    BOAT_HULL_CHINE_HEIGHT: Length = "boat.hull.chine.height", s.boat.hull.chine.height, NotNegative, Measured,
        "the chine above the keel line, over the bunks",
        TAPE_KEEL;
    BOAT_HULL_STRAIGHT_RUN: Length = "boat.hull.straight_run", s.boat.hull.straight_run, Positive, Measured,
        "where the bottom begins to rise, forward of the transom",
        "Hold a long straightedge along the keel from the transom forward: where it parts from the keel.";
    BOAT_HULL_SUPPORT_FROM: Length = "boat.hull.support_from", s.boat.hull.support_from, NotNegative, Defaulted,
        "where a bunk may begin to bear, forward of the transom",
        "Tape from the transom to the front of trim tabs or what else is in the way; the transom itself if nothing is.",
        default: value(inches(0.0));
    BOAT_HULL_STRAKES_NAME: Text = "boat.hull.strakes.*.name", s.boat.hull.strakes[at[0]].name, Any, Defaulted,
        "the strake's name",
        PLAIN,
        default: rule("strake 1, strake 2 …");
    BOAT_HULL_STRAKES_HALF_BREADTH: Length = "boat.hull.strakes.*.half_breadth", s.boat.hull.strakes[at[0]].half_breadth, Positive, Measured,
        "the strake from the centreline",
        "Tape across from strake to strake and halve it.";
    BOAT_SECTIONS_STATION: Length = "boat.sections.*.station", s.boat.sections[at[0]].station, Any, Measured,
        "where the hull was measured, forward of the transom",
        TAPE_STATION;
    BOAT_SECTIONS_KEEL: Length = "boat.sections.*.keel", s.boat.sections[at[0]].keel, Any, Measured,
        "the keel there, above the keel line",
        "Stretch a string along the keel line, the straight run carried on to the bow, and tape up to the hull: nothing over the straight run.",
        plausible: (inches(-12.0), feet(12.0));
    BOAT_SECTIONS_CHINE_HALF_BREADTH: Length = "boat.sections.*.chine.half_breadth", s.boat.sections[at[0]].chine.half_breadth, NotNegative, Measured,
        "the chine there, from the centreline",
        "Hang plumb lines from both chines, tape between them and halve it.",
        plausible: (inches(0.0), feet(10.0));
    BOAT_SECTIONS_CHINE_HEIGHT: Length = "boat.sections.*.chine.height", s.boat.sections[at[0]].chine.height, Any, Measured,
        "the chine there, above the keel line",
        TAPE_KEEL,
        plausible: (inches(-12.0), feet(12.0));
    BOAT_SECTIONS_SHEER_HALF_BREADTH: Length = "boat.sections.*.sheer.half_breadth", s.boat.sections[at[0]].sheer.half_breadth, NotNegative, Measured,
        "the sheer there, from the centreline",
        "Tape across from gunwale to gunwale and halve it.",
        plausible: (inches(0.0), feet(10.0));
    BOAT_SECTIONS_SHEER_HEIGHT: Length = "boat.sections.*.sheer.height", s.boat.sections[at[0]].sheer.height, Any, Measured,
        "the sheer there, above the keel line",
        TAPE_KEEL,
        plausible: (inches(-12.0), feet(20.0));
    BOAT_AFLOAT_DRAFT: Length = "boat.afloat.draft", s.boat.afloat.draft, Positive, Measured,
        "how deep the transom's keel lies under water afloat, loaded as in the first case",
        "Afloat, tape up the transom from the water to a mark, and on the trailer from that mark down to the keel line.",
        plausible: (inches(2.0), feet(6.0));
    BOAT_AFLOAT_EYE: Length = "boat.afloat.eye", s.boat.afloat.eye, Any, Measured,
        "the bow eye above the water afloat, loaded as in the first case",
        "Afloat, nobody forward, tape from the water up to the bow eye.",
        plausible: (inches(-6.0), feet(10.0));
    BOAT_LOW_POINTS_NAME: Text = "boat.low_points.*.name", s.boat.low_points[at[0]].name, Any, Defaulted,
        "what the low point is",
        PLAIN,
        default: rule("low point 1, low point 2 …");
    BOAT_LOW_POINTS_STATION: Length = "boat.low_points.*.station", s.boat.low_points[at[0]].station, Any, Measured,
        "the low point, forward of the transom",
        TAPE_STATION;
    BOAT_LOW_POINTS_HEIGHT: Length = "boat.low_points.*.height", s.boat.low_points[at[0]].height, Any, Measured,
        "the low point, above the keel line",
        TAPE_KEEL;
    BOAT_LOW_POINTS_SIDE: Length = "boat.low_points.*.side", s.boat.low_points[at[0]].side, Any, Defaulted,
        "the low point, to starboard",
        "Tape from the centreline; to port is negative.";
    BOAT_WEIGHTS_ID: Id = "boat.weights.*.id", s.boat.weights[at[0]].id, Any, Defaulted,
        "a short name for cases and changes",
        PLAIN;
    BOAT_WEIGHTS_ITEM: Text = "boat.weights.*.item", s.boat.weights[at[0]].item, Any, Informational,
        "what it is",
        PLAIN;
    BOAT_WEIGHTS_WEIGHT: Weight = "boat.weights.*.weight", s.boat.weights[at[0]].weight, NotNegative, Measured,
        "weight of something aboard",
        "From a scale, a maker's sheet or an invoice; or give the scale figures of the whole rig in [measured].",
        plausible: (pounds(0.0), pounds(26500.0));
    BOAT_WEIGHTS_STATION: Length = "boat.weights.*.station", s.boat.weights[at[0]].station, Any, Measured,
        "its centre, forward of the transom",
        TAPE_STATION,
        plausible: (feet(-8.0), feet(60.0));
    BOAT_WEIGHTS_HEIGHT: Length = "boat.weights.*.height", s.boat.weights[at[0]].height, Any, Measured,
        "its centre, above the keel line",
        TAPE_KEEL,
        plausible: (feet(-4.0), feet(15.0));
    BOAT_WEIGHTS_SIDE: Length = "boat.weights.*.side", s.boat.weights[at[0]].side, Any, Defaulted,
        "its centre, to starboard",
        "Tape from the centreline; to port is negative.",
        default: value(inches(0.0));
    BOAT_TANKS_ID: Id = "boat.tanks.*.id", s.boat.tanks[at[0]].id, Any, Defaulted,
        "a short name for cases and changes",
        PLAIN;
    BOAT_TANKS_ITEM: Text = "boat.tanks.*.item", s.boat.tanks[at[0]].item, Any, Informational,
        "what it is",
        PLAIN;
    BOAT_TANKS_FLUID: Choice<Fluid> = "boat.tanks.*.fluid", s.boat.tanks[at[0]].fluid, Any, Measured,
        "what the tank holds",
        "gasoline, diesel, fresh-water or sea-water; or give boat.tanks density.";
    BOAT_TANKS_DENSITY: Density = "boat.tanks.*.density", s.boat.tanks[at[0]].density, Positive, Measured,
        "density of what the tank holds",
        "From the supplier's sheet, if it is none of the known fluids.",
        default: rule("by the fluid: gasoline 6.1 lb/gal, diesel 7.1 lb/gal, fresh water 1000 kg/m3, sea water 1025 kg/m3"),
        plausible: (kilograms_a_litre(0.6), kilograms_a_litre(1.5));
    BOAT_TANKS_CAPACITY: Volume = "boat.tanks.*.capacity", s.boat.tanks[at[0]].capacity, Positive, Measured,
        "what the tank holds when full",
        "From its label, or from filling it once.",
        plausible: (gallons(0.5), gallons(1000.0));
    BOAT_TANKS_FILL: Share = "boat.tanks.*.fill", s.boat.tanks[at[0]].fill, NotNegative, Defaulted,
        "how full the tank is",
        "From its gauge or a dipstick.",
        default: value(percent(100.0));
    BOAT_TANKS_STATION: Length = "boat.tanks.*.station", s.boat.tanks[at[0]].station, Any, Measured,
        "the tank's centre, forward of the transom",
        TAPE_STATION,
        plausible: (feet(-8.0), feet(60.0));
    BOAT_TANKS_HEIGHT: Length = "boat.tanks.*.height", s.boat.tanks[at[0]].height, Any, Measured,
        "the tank's centre, above the keel line",
        TAPE_KEEL,
        plausible: (feet(-4.0), feet(15.0));
    BOAT_TANKS_SIDE: Length = "boat.tanks.*.side", s.boat.tanks[at[0]].side, Any, Defaulted,
        "the tank's centre, to starboard",
        "Tape from the centreline; to port is negative.",
        default: value(inches(0.0));
}

lists! {
    s, at, i;

    "boat.weights", s.boat.weights, s.part_id(Part::Weight(i));
    "boat.tanks", s.boat.tanks, s.part_id(Part::Tank(i));
    "boat.low_points", s.boat.low_points, s.boat.low_points[i].name.as_deref();
    "boat.hull.deadrise", s.boat.hull.deadrise_at, None;
    "boat.sections", s.boat.sections, None;
    "boat.hull.strakes", s.boat.hull.strakes, s.boat.hull.strakes[i].name.as_deref();
}
