//! What became of a row, and of a rig.

use super::check::Check;

/// What became of a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Inside, with room.
    Pass,
    /// Inside, with little room.
    Thin,
    /// Inside as stated, but not at every value that the stated uncertainty allows; the limit counts.
    Unsure,
    /// Outside a limit that only advises.
    Advise,
    /// Outside a limit that counts.
    Fail,
    /// Not made: something is missing.
    NotChecked,
}

/// What became of a rig.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RigVerdict {
    /// Every core check was made, and every check that counts holds.
    Pass,
    /// A check that counts fails.
    Fail,
    /// Nothing that counts fails, but a core check could not be made.
    Incomplete,
    /// Every core check was made and none that counts fails, but one of them is unsure.
    Unsure,
}

/// What checks and their verdicts make of a rig.
pub fn rig_verdict<'a>(made: impl Iterator<Item = (&'a Check, Verdict)>) -> RigVerdict {
    let mut worst = RigVerdict::Pass;
    for (check, verdict) in made {
        match verdict {
            Verdict::Fail => return RigVerdict::Fail,
            Verdict::NotChecked if check.core => worst = RigVerdict::Incomplete,
            Verdict::Unsure if worst == RigVerdict::Pass => worst = RigVerdict::Unsure,
            _ => {}
        }
    }
    worst
}
