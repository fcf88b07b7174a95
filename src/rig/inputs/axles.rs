//! `[[trailer.axles]]`, with their tires and wheels.

use super::prelude::*;
use crate::rig::tires::{silent_exponent_ends, silent_pressure_max_ends};

inputs! {
    s, at;

    TRAILER_AXLES_STATION: Length = "trailer.axles.*.station", s.trailer.axles[at[0]].station, Positive, Correction,
        "the axle behind the ball",
        TAPE_X,
        plausible: (feet(4.0), feet(50.0));
    TRAILER_AXLES_RATING: Weight = "trailer.axles.*.rating", s.trailer.axles[at[0]].rating, Positive, Measured,
        "gross axle weight rating",
        "From the trailer's certification label, else from the tag on the axle tube.",
        plausible: (pounds(500.0), pounds(15000.0));
    TRAILER_AXLES_SPRING_RATING: Weight = "trailer.axles.*.spring_rating", s.trailer.axles[at[0]].spring_rating, Positive, Correction,
        "rating of the axle's springs together",
        STAMPED,
        plausible: (pounds(500.0), pounds(15000.0));
    TRAILER_AXLES_WEIGHT: Weight = "trailer.axles.*.weight", s.trailer.axles[at[0]].weight, Positive, Correction,
        "weight of axle, wheels and tires",
        "From the maker's sheet.",
        plausible: (pounds(40.0), pounds(2000.0));
    TRAILER_AXLES_BRAKED: Flag = "trailer.axles.*.braked", s.trailer.axles[at[0]].braked, Any, Defaulted,
        "whether the axle has brakes",
        "Look behind the wheel.";
    TRAILER_AXLES_TIRES_SIZE: Text = "trailer.axles.*.tires.size", s.trailer.axles[at[0]].tires.size, Any, Correction,
        "the tires' size",
        "On the sidewall, like ST225/75R15.";
    TRAILER_AXLES_TIRES_KIND: Choice<TireKind> = "trailer.axles.*.tires.kind", s.trailer.axles[at[0]].tires.kind, Any, Correction,
        "what the tires are for",
        "trailer (ST), light-truck (LT) or passenger (P), on the sidewall before the size.",
        default: rule("by the letters of the size: ST trailer; LT, or a C after the rim, light-truck; P or none passenger; trailer without a size");
    TRAILER_AXLES_TIRES_CONSTRUCTION: Choice<Construction> = "trailer.axles.*.tires.construction", s.trailer.axles[at[0]].tires.construction, Any, Correction,
        "how the tires are built",
        "radial (R) or bias (D or -), in the size.";
    TRAILER_AXLES_TIRES_COUNT: Count = "trailer.axles.*.tires.count", s.trailer.axles[at[0]].tires.count, Positive, Correction,
        "how many tires stand on the axle",
        "2, or 4 with duals.",
        default: count(2);
    TRAILER_AXLES_TIRES_RATING: Weight = "trailer.axles.*.tires.rating", s.trailer.axles[at[0]].tires.rating, Positive, Correction,
        "what each tire may carry",
        SIDEWALL,
        plausible: (pounds(300.0), pounds(8000.0));
    TRAILER_AXLES_TIRES_PRESSURE: Pressure = "trailer.axles.*.tires.pressure", s.trailer.axles[at[0]].tires.pressure, Positive, Correction,
        "cold inflation pressure",
        "With a gauge, before driving.",
        default: rule("tires.pressure_max, listed as assumed"),
        plausible: (pounds_a_square_inch(15.0), pounds_a_square_inch(140.0));
    TRAILER_AXLES_TIRES_PRESSURE_MAX: Pressure = "trailer.axles.*.tires.pressure_max", s.trailer.axles[at[0]].tires.pressure_max, Positive, Correction,
        "the pressure at which each tire carries its rating",
        "Moulded on the sidewall beside the load, cold.",
        default: rule("that of the published row of an ST size which has the rating; else 65 psi, of passenger tires 35 psi")
            .within(Ends::Rule("of no published row 50 and 80 psi, of passenger tires 35 and 44 psi, where tires.pressure is stated", silent_pressure_max_ends), Going::Alone),
        plausible: (pounds_a_square_inch(25.0), pounds_a_square_inch(140.0));
    TRAILER_AXLES_TIRES_PRESSURE_EXPONENT: Share = "trailer.axles.*.tires.pressure_exponent", s.trailer.axles[at[0]].tires.pressure_exponent, Positive, Correction,
        "the power of the pressure with which the load that a tire carries falls, 100 % being in proportion",
        "Leave it out, unless its maker's table of loads by pressure is at hand: the logarithm of two loads' ratio over that of their pressures.",
        default: rule("trailer tires 70 %, light-truck tires 75 %, passenger tires and a size without letters that has a load index 80 %")
            .within(Ends::Rule("trailer tires 58 and 75 %, light-truck tires 70 and 80 %, where tires.pressure is below tires.pressure_max", silent_exponent_ends), Going::Alone),
        plausible: (percent(50.0), percent(100.0));
    TRAILER_AXLES_TIRES_LOAD_INDEX: Count = "trailer.axles.*.tires.load_index", s.trailer.axles[at[0]].tires.load_index, Positive, Correction,
        "the tires' load index, which gives a missing rating; with a rating the lesser counts",
        "The number after the size on the sidewall; of two the first, the second for duals.";
    TRAILER_AXLES_TIRES_SPEED_SYMBOL: Choice<SpeedSymbol> = "trailer.axles.*.tires.speed_symbol", s.trailer.axles[at[0]].tires.speed_symbol, Any, Correction,
        "the tires' speed symbol",
        "The letter after the load index on the sidewall.";
    TRAILER_AXLES_TIRES_DATE: Text = "trailer.axles.*.tires.date", s.trailer.axles[at[0]].tires.date, Any, Correction,
        "week and year in which the tires were made",
        "The last four digits of the code that begins with DOT on the sidewall: 3224 is week 32 of 2024.";
    TRAILER_AXLES_TIRES_FENDER: Length = "trailer.axles.*.tires.fender", s.trailer.axles[at[0]].tires.fender, Positive, Correction,
        "the underside of the fender above the hub",
        "Loaded as in the first case, tape from the hub's centre straight up.",
        plausible: (inches(6.0), inches(48.0));
    TRAILER_AXLES_TIRES_RADIUS: Length = "trailer.axles.*.tires.radius", s.trailer.axles[at[0]].tires.radius, Positive, Correction,
        "hub to ground, loaded",
        "Tape from the hub's centre to level ground; or give a metric tires.size.",
        default: rule("0.94 of half the nominal outer diameter of a metric tires.size"),
        plausible: (inches(6.0), inches(24.0));
    TRAILER_AXLES_TIRES_RATE: Rate = "trailer.axles.*.tires.rate", s.trailer.axles[at[0]].tires.rate, Positive, Correction,
        "rate of each tire",
        "From the tire maker's sheet.",
        default: value(pounds_an_inch(2000.0)).assumed("each tire, common practice, no source").within(Ends::Times(0.5, 2.0), Going::WithRates),
        plausible: (pounds_an_inch(300.0), pounds_an_inch(8000.0));
    TRAILER_AXLES_WHEELS_RATING: Weight = "trailer.axles.*.wheels.rating", s.trailer.axles[at[0]].wheel_rating, Positive, Correction,
        "what each wheel may carry",
        "Stamped on the back of the wheel or inside the rim.",
        plausible: (pounds(300.0), pounds(8000.0));
}

lists! {
    s, at, i;

    "trailer.axles", s.trailer.axles, None;
}
