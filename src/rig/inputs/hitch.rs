//! `[hitch]`, from the receiver to the ball.

use super::prelude::*;

inputs! {
    s, at;

    HITCH_RECEIVER: Choice<Absent> = "hitch.receiver", s.hitch.receiver.absent, Any, Measured,
        "that there is no receiver",
        "none, where the rig has no such part; else a table of its figures.";
    HITCH_RECEIVER_RATING: Weight = "hitch.receiver.rating", s.hitch.receiver.rating, Positive, Measured,
        "gross trailer weight the receiver may tow",
        STAMPED,
        plausible: (pounds(500.0), pounds(40000.0));
    HITCH_RECEIVER_TONGUE_RATING: Weight = "hitch.receiver.tongue_rating", s.hitch.receiver.tongue_rating, Positive, Measured,
        "tongue weight the receiver may hold",
        STAMPED,
        plausible: (pounds(40.0), pounds(6000.0));
    HITCH_RECEIVER_TUBE: Length = "hitch.receiver.tube", s.hitch.receiver.tube, Positive, Measured,
        "inside size of the receiver's tube",
        "Tape across the opening.",
        plausible: (inches(1.0), inches(3.5));
    HITCH_BALL_MOUNT: Choice<Absent> = "hitch.ball_mount", s.hitch.ball_mount.absent, Any, Measured,
        "that there is no ball mount",
        "none, where the rig has no such part; else a table of its figures.";
    HITCH_BALL_MOUNT_RATING: Weight = "hitch.ball_mount.rating", s.hitch.ball_mount.rating, Positive, Measured,
        "gross trailer weight the ball mount may tow",
        STAMPED,
        plausible: (pounds(500.0), pounds(40000.0));
    HITCH_BALL_MOUNT_TONGUE_RATING: Weight = "hitch.ball_mount.tongue_rating", s.hitch.ball_mount.tongue_rating, Positive, Measured,
        "tongue weight the ball mount may hold",
        STAMPED,
        plausible: (pounds(40.0), pounds(6000.0));
    HITCH_BALL_MOUNT_SHANK: Length = "hitch.ball_mount.shank", s.hitch.ball_mount.shank, Positive, Measured,
        "size of the ball mount's shank",
        "Tape across it.",
        plausible: (inches(1.0), inches(3.5));
    HITCH_WEIGHT_DISTRIBUTION_MOMENT: Moment = "hitch.weight_distribution.moment", s.hitch.weight_distribution.moment, NotNegative, Measured,
        "moment of the bars that distribute weight, both together",
        "From their maker's sheet: what a bar lifts at its end times its length, for both.",
        plausible: (pound_inches(0.0), pound_inches(100_000.0));
    HITCH_WEIGHT_DISTRIBUTION_RESTORED: Share = "hitch.weight_distribution.restored", s.hitch.weight_distribution.restored, NotNegative, Measured,
        "share of what the tongue takes off the tow vehicle's front axle that the bars give back",
        "Weigh the front axle alone, coupled without bars, and coupled with them: what comes back over what was lost.";
    HITCH_BALL: Choice<Absent> = "hitch.ball", s.hitch.ball.absent, Any, Measured,
        "that there is no ball",
        "none, where the rig has no such part; else a table of its figures.";
    HITCH_BALL_RATING: Weight = "hitch.ball.rating", s.hitch.ball.rating, Positive, Measured,
        "gross trailer weight the ball may tow",
        STAMPED,
        plausible: (pounds(500.0), pounds(60000.0));
    HITCH_BALL_DIAMETER: Length = "hitch.ball.diameter", s.hitch.ball.diameter, Positive, Measured,
        "the ball's diameter",
        STAMPED,
        plausible: (inches(1.5), inches(3.5));
    HITCH_BALL_TONGUE_RATING: Weight = "hitch.ball.tongue_rating", s.hitch.ball.tongue_rating, Positive, Measured,
        "tongue weight the ball may hold: S on the plate beside it",
        PLATE,
        plausible: (pounds(40.0), pounds(6000.0));
    HITCH_BALL_D_VALUE: Force = "hitch.ball.d_value", s.hitch.ball.d_value, Positive, Measured,
        "D on the plate beside the ball",
        PLATE,
        plausible: (kilonewtons(1.0), kilonewtons(250.0));
}
