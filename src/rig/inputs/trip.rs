//! `[trip]`: how the rig is driven, and where.

use super::prelude::*;

inputs! {
    s, at;

    TRIP_SPEED: Speed = "trip.speed", s.trip.speed, Positive, Defaulted,
        "the speed at which the rig is towed",
        "The fastest that you drive with the boat behind you.",
        plausible: (miles_an_hour(15.0), miles_an_hour(90.0));
    TRIP_BEND: Angle = "trip.bend", s.trip.bend, NotNegative, Defaulted,
        "the sharpest angle between trailer and tow vehicle at which the rig must brake",
        "Seen from above, between the centrelines of both: some 10 deg in a bend of a road.";
    TRIP_CURVE: Distance = "trip.curve", s.trip.curve, Positive, Defaulted,
        "radius of the tightest curve that is taken at the trip's speed",
        "From a map: the radius of the circle that fits the bend.",
        plausible: (feet(30.0), feet(5000.0));
    TRIP_DESCENT_GRADE: Slope = "trip.descent.grade", s.trip.descent.grade, Positive, Defaulted,
        "grade of the longest descent that is to be held",
        "From the road sign, or from a map: height over length.",
        plausible: (percent(1.0), percent(30.0));
    TRIP_DESCENT_HEIGHT: Distance = "trip.descent.height", s.trip.descent.height, Positive, Defaulted,
        "height of the longest descent that is to be held",
        "From a map: the height of the top less that of the bottom.",
        plausible: (feet(10.0), feet(10000.0));
    TRIP_DATE: Text = "trip.date", s.trip.date, Any, Defaulted,
        "the day on which the tires' age is counted",
        "Year, month and day, like 2026-06-01. No clock is read.";
    TRIP_WIND: Speed = "trip.wind", s.trip.wind, Positive, Defaulted,
        "the strongest gust from the side",
        "From the forecast: gusts, not the mean.",
        plausible: (miles_an_hour(5.0), miles_an_hour(150.0));
    TRIP_CROSS_SLOPE: Slope = "trip.cross_slope", s.trip.cross_slope, NotNegative, Defaulted,
        "slope of road or ramp to the side",
        "With a level and a tape across the lane: rise over run.",
        plausible: (percent(0.0), percent(20.0));
}
