//! `[policy]`: what the owner asks of the rig.

use super::prelude::*;

const TONGUE_SHARE: &str = "US boat owners' association, trailering article, 2012; in Europe national rules and an ISO term, read on pages that quote them";

const LAW: &str = "Look it up for every state or country that you tow through: the strictest counts.";

inputs! {
    s, at;

    POLICY_TURN: Angle = "policy.turn", s.policy.turn, Positive, Measured,
        "the sharpest turn on the level, between trailer and tow vehicle",
        "The angle you mean to turn to when manoeuvring.";
    POLICY_TONGUE_SHARE_MIN: Share = "policy.tongue_share.min", s.policy.tongue_share.min, NotNegative, Defaulted,
        "least tongue weight, as a share of gross",
        PLAIN,
        default: rule("7 %; 4 % where policy.rules is europe").assumed(TONGUE_SHARE);
    POLICY_TONGUE_SHARE_MAX: Share = "policy.tongue_share.max", s.policy.tongue_share.max, Positive, Defaulted,
        "greatest tongue weight, as a share of gross",
        PLAIN,
        default: rule("12 %; 10 % where policy.rules is europe").assumed(TONGUE_SHARE);
    POLICY_PREFERRED_TONGUE_SHARE: Share = "policy.preferred_tongue_share", s.policy.preferred_tongue_share, Positive, Defaulted,
        "tongue weight to aim for, as a share of gross, in the first case",
        "Your choice inside the band: where the boat may sit in several places, the one nearest to this share is recommended.";
    POLICY_BUNK_PRESSURE_MIN: Pressure = "policy.bunk_pressure.min", s.policy.bunk_pressure.min, NotNegative, Measured,
        "least peak pressure of a bunk on the hull",
        PLAIN;
    POLICY_BUNK_PRESSURE_MAX: Pressure = "policy.bunk_pressure.max", s.policy.bunk_pressure.max, Positive, Defaulted,
        "greatest pressure of a bunk on the hull",
        "From the boat's builder, or leave the default.",
        default: value(pounds_a_square_inch(20.0)).assumed("at the peak, common practice, no source");
    POLICY_CLEARANCE: Length = "policy.clearance", s.policy.clearance, NotNegative, Defaulted,
        "least clearance between hull or running gear and trailer",
        PLAIN,
        default: value(inches(0.0));
    POLICY_SIDE_PLAY: Length = "policy.side_play", s.policy.side_play, NotNegative, Measured,
        "how far the boat may lie off the centreline while it is loaded",
        "Tape the gap between the side guides and the hull, or judge it.";
    POLICY_LOADING_TRIM: Angle = "policy.loading_trim", s.policy.loading_trim, NotNegative, Measured,
        "how far the boat may be out of line with the bunks while it is loaded",
        "Judge it: a ramp's grade less what the boat floats at.";
    POLICY_ROAD_FACTOR: Factor = "policy.road_factor", s.policy.road_factor, Positive, Measured,
        "how many times their static loads bunks and crossmembers are to bear, for bumps on the road",
        "Your choice, from 1 to 10; leave it out for static loads.";
    POLICY_PACKING_ERROR: Length = "policy.packing_error", s.policy.packing_error, NotNegative, Measured,
        "how far one crossmember may stand out of line with the others under the bunks",
        "Your choice; 1/16 in is what shims commonly leave.",
        plausible: (inches(0.0), inches(1.0));
    POLICY_PUSH: Weight = "policy.push", s.policy.push, Positive, Defaulted,
        "what one person pushes the boat off its bunks with",
        "Lean on a scale against a wall.",
        default: value(pounds(100.0)).assumed("one person wading, common practice, no source"),
        plausible: (pounds(10.0), pounds(400.0));
    POLICY_HOME_GAP: Length = "policy.home_gap", s.policy.home_gap, Positive, Defaulted,
        "how far short of the stop the boat may sit down when it comes home",
        "Your choice: what the winch or the strap still takes up.",
        default: value(inches(1.0)).assumed("common practice, no source"),
        plausible: (inches(0.1), inches(24.0));
    POLICY_THIN_MARGIN: Share = "policy.thin_margin", s.policy.thin_margin, NotNegative, Defaulted,
        "less than this share of a rating left is a thin margin",
        PLAIN,
        default: value(percent(10.0));
    POLICY_TRUST: Choice<Trust> = "policy.trust", s.policy.trust, Any, Correction,
        "what the loads follow where scales and items disagree",
        "items, or scale: then every item's weight is multiplied by one factor and its station moved by one distance, so that the first case gives back the scale figures.",
        default: word("items");
    POLICY_RULES: Choice<Rules> = "policy.rules", s.policy.rules, Any, Correction,
        "whose published rules make rows",
        "us or europe: by where the rig is registered and towed.",
        default: word("us");
    POLICY_SIZE_LENGTH: Length = "policy.size.length", s.policy.size.length, Positive, Defaulted,
        "how long trailer and boat may be, from the ball aft",
        LAW,
        plausible: (feet(10.0), feet(80.0));
    POLICY_SIZE_WIDTH: Length = "policy.size.width", s.policy.size.width, Positive, Defaulted,
        "how wide trailer and boat may be",
        LAW,
        plausible: (feet(5.0), feet(16.0));
    POLICY_SIZE_HEIGHT: Length = "policy.size.height", s.policy.size.height, Positive, Defaulted,
        "how high the boat may stand above ground on its trailer",
        LAW,
        plausible: (feet(6.0), feet(20.0));
    POLICY_SIZE_REAR_PROJECTION: Length = "policy.size.rear_projection", s.policy.size.rear_projection, NotNegative, Defaulted,
        "how far the boat may reach out behind the trailer",
        LAW,
        plausible: (feet(0.0), feet(12.0));
    POLICY_COUNTS: Checks = "policy.counts", s.policy.counts, Any, Defaulted,
        "checks that must hold",
        PLAIN;
    POLICY_ADVISES: Checks = "policy.advises", s.policy.advises, Any, Defaulted,
        "checks that only advise",
        PLAIN;
}
