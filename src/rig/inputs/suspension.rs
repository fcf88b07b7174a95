//! `[trailer.suspension]`.

use super::prelude::*;

inputs! {
    s, at;

    TRAILER_SUSPENSION_KIND: Choice<SuspensionKind> = "trailer.suspension.kind", s.trailer.suspension.kind, Any, Correction,
        "how the axles are sprung",
        "leaf-equalized, leaf-separate or torsion: look for the rocking links between leaf springs.";
    TRAILER_SUSPENSION_DEFLECTION_AT_RATING: Length = "trailer.suspension.deflection_at_rating", s.trailer.suspension.deflection_at_rating, Positive, Correction,
        "deflection of the suspension under the axle's rating",
        "From the spring or axle maker's sheet.",
        default: rule("leaf springs 2.25 in, torsion axles 2.3 in").within(Ends::Times(2.0, 0.5), Going::WithRates),
        plausible: (inches(0.5), inches(8.0));
    TRAILER_SUSPENSION_EQUALIZER_TRAVEL: Length = "trailer.suspension.equalizer_travel", s.trailer.suspension.equalizer_travel, NotNegative, Correction,
        "travel of an equalizer's end, each way",
        "Tape how far the equalizer's end swings from the middle to its stop.",
        default: value(inches(1.5)).assumed("common practice, no source").within(Ends::Between(inches(1.0), inches(3.0)), Going::WithEach),
        plausible: (inches(0.0), inches(6.0));
    TRAILER_SUSPENSION_BUMP: Length = "trailer.suspension.bump", s.trailer.suspension.bump, Positive, Correction,
        "deflection at which the suspension bottoms",
        "From the maker's sheet, or the gap at the bump stop plus the loaded deflection.",
        default: rule("leaf springs 1.4 times, torsion axles 1.45 times the deflection at rating")
            .within(Ends::TimesStated("trailer.suspension.deflection_at_rating", 1.2, 2.0), Going::WithEach),
        plausible: (inches(0.7), inches(12.0));
}
