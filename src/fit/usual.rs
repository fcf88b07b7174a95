//! What it usually means to be past a check's limits, for a reader who asks about no rig in particular.

use super::asked::Severity;
use super::check::{At, Bound, Check, Past};
use crate::rig::Rig;

/// What it usually means to be past a check's limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Usually {
    /// The rig fails.
    Fails,
    /// The owner is advised.
    Advises,
    /// The owner is advised, and the rig fails past a second limit on some side.
    AdvisesThenFails,
    /// The owner is advised; where the file states what is assumed otherwise, the rig fails.
    FailsWhereStated,
    /// The rig fails on three axles and more; on two the owner is advised first.
    FailsFromThreeAxles,
}

impl Check {
    /// What it usually means to be past its limits; a policy, or a value that a file states, may change it.
    pub fn usually(&self) -> Usually {
        match (self.on(2, ""), self.on(3, "")) {
            (Usually::Advises | Usually::AdvisesThenFails, Usually::Fails) => Usually::FailsFromThreeAxles,
            (_, Usually::Advises) if self.on(3, STATED) != Usually::Advises => Usually::FailsWhereStated,
            (_, usually) => usually,
        }
    }

    /// The same on so many axles, where a file states this too.
    fn on(&self, axles: usize, stated: &str) -> Usually {
        let Ok(rig) = Rig::parse(&(sample(axles) + stated)) else { return Usually::Advises };
        let ramp = self.is_about_ramps().then_some(0);
        let limits = (self.limits)(rig.proposed(), At { of: 0, ramp });
        let bounds: Vec<&Bound> = [&limits.min, &limits.max].into_iter().flatten().collect();
        let any = |severity: Severity| {
            bounds.iter().any(|bound| match bound.past {
                Past::Fails => severity == Severity::Fails,
                Past::Advises => severity == Severity::Advises,
                Past::FailsBeyond(_) => true,
            })
        };
        match (any(Severity::Advises), any(Severity::Fails)) {
            (_, false) => Usually::Advises,
            (false, true) => Usually::Fails,
            (true, true) => Usually::AdvisesThenFails,
        }
    }
}

/// What else a file may state of it, which is assumed otherwise: in the sample's last table, its ramp, and in tables of their own.
const STATED: &str = "friction = \"55 %\"
[trailer]
tongue = { yield = \"36 ksi\" }
rails = { yield = \"36 ksi\" }
bunks = { friction = \"30 %\" }
winch = { afloat = \"0 %\", strap = { working = \"1000 lb\" } }
";

/// A rig that has one of everything a row can be about.
fn sample(axles: usize) -> String {
    let axle = |axle: usize| format!("[[trailer.axles]]\nstation = \"{} in\"\n", 200 + 34 * axle);
    let axles: String = (0..axles).map(axle).collect();
    String::from("format = 1\n[tow]\nball_height = \"20 in\"\n")
        + &axles
        + "[[trailer.crossmembers]]\nstation = \"200 in\"\n[[ramps]]\nprofile = [{ length = \"60 ft\", grade = \"12 %\" }]\n"
}
