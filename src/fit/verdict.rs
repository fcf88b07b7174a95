//! What became of a row, and of a rig.

/// What became of a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Inside, with room.
    Pass,
    /// Inside, with little room.
    Thin,
    /// Past a limit that only advises.
    Advise,
    /// Inside what fails as stated, past it at some value that what is uncertain allows.
    Unsure,
    /// Past a limit that fails.
    Fail,
    /// Not evaluated: something is missing.
    NotChecked,
}

/// What became of a rig.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RigVerdict {
    /// Every core check was evaluated, and none that can fail does.
    Pass,
    /// A check fails.
    Fail,
    /// Nothing fails, but a core check could not be evaluated.
    Incomplete,
    /// Every core check was evaluated and none fails, but something is unsure.
    Unsure,
}

/// What one row brings to the verdict of its rig.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Outcome {
    /// What became of it.
    pub verdict: Verdict,
    /// Whether the rig can fail by it.
    pub can_fail: bool,
    /// Whether the rig is incomplete without it.
    pub core: bool,
}

/// What rows make of a rig; `lowered` is what reasons beside rows make of it at best, asked for where no row fails.
pub fn rig_verdict(rows: impl Iterator<Item = Outcome>, lowered: impl FnOnce() -> RigVerdict) -> RigVerdict {
    let (mut incomplete, mut unsure, mut evaluated) = (false, false, false);
    for row in rows {
        match row.verdict {
            Verdict::Fail => return RigVerdict::Fail,
            Verdict::NotChecked => incomplete |= row.core,
            Verdict::Unsure => unsure = true,
            Verdict::Pass | Verdict::Thin | Verdict::Advise => {}
        }
        evaluated |= row.can_fail && row.verdict != Verdict::NotChecked;
    }
    if incomplete || !evaluated {
        return RigVerdict::Incomplete;
    }
    let lowered = lowered();
    if lowered == RigVerdict::Incomplete {
        RigVerdict::Incomplete
    } else if unsure || lowered == RigVerdict::Unsure {
        RigVerdict::Unsure
    } else {
        RigVerdict::Pass
    }
}
