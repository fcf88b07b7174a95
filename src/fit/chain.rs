//! The chain from the tow vehicle to the tires and the straps: how much of each link is used.

use super::assess::{Assessment, Row};
use super::verdict::Verdict;
use crate::quantity::Quantity;
use crate::rig::Key;

/// One link, by the row that stands worst of those about it.
#[derive(Debug, Clone, PartialEq)]
pub struct Link<'a> {
    /// What it is.
    pub name: &'static str,
    /// The row that governs it; `None` where none was evaluated.
    pub row: Option<&'a Row>,
    /// The keys that rows about it lack.
    pub missing: Vec<Key>,
}

/// The links, from front to rear, with the ids of the checks about each.
const LINKS: &[(&str, &[&str])] = &[
    ("tow vehicle", &["tow-rating", "tow-tongue"]),
    ("receiver", &["receiver", "receiver-tongue"]),
    ("ball mount", &["ball-mount", "ball-mount-tongue"]),
    ("ball", &["ball"]),
    ("coupler", &["coupler", "coupler-tongue"]),
    ("safety chains", &["safety-chains"]),
    ("brake actuator", &["brake-actuator-tongue"]),
    ("tongue", &["tongue-bending", "tongue-clamp"]),
    ("springs", &["spring-*"]),
    ("axles", &["axle-*"]),
    ("wheels", &["wheel-*"]),
    ("tires", &["tire-*"]),
    ("winch", &["winch-pull"]),
    ("winch strap", &["winch-strap"]),
    ("bow eye", &["bow-eye"]),
    ("winch post", &["winch-post"]),
    (
        "tie-downs",
        &["tie-down-forward", "tie-down-rearward", "tie-down-side", "tie-down-down", "tie-down-total"],
    ),
];

impl Assessment {
    /// Every link of which the rig has a row, the weakest first; those of which nothing is known last.
    pub fn chain(&self) -> Vec<Link<'_>> {
        let of = |(name, ids): &(&'static str, &[&str])| {
            let rows = || self.rows.iter().filter(|row| ids.contains(&row.check.id));
            let evaluated = rows().filter(|row| row.verdict != Verdict::NotChecked);
            let row =
                evaluated.reduce(|worst, next| if weakness(next) > weakness(worst) { next } else { worst });
            let mut missing: Vec<Key> = Vec::new();
            for key in rows().flat_map(|row| &row.missing) {
                if !missing.contains(key) {
                    missing.push(*key);
                }
            }
            rows().next().map(|_| Link { name, row, missing })
        };
        let mut links: Vec<Link<'_>> = LINKS.iter().filter_map(of).collect();
        // A stable sort: equals stay from front to rear.
        links.sort_by(|one, other| {
            let weak = |link: &Link<'_>| link.row.map_or((0, -1.0), weakness);
            let (one, other) = (weak(one), weak(other));
            other.0.cmp(&one.0).then(other.1.total_cmp(&one.1))
        });
        links
    }
}

/// How weak a link is by a row, the weakest greatest: whether it fails, then how much of it is used.
fn weakness(row: &Row) -> (u8, f64) {
    let rank = match row.verdict {
        Verdict::Fail => 4,
        Verdict::Unsure => 3,
        Verdict::Advise => 2,
        Verdict::Thin | Verdict::Pass => 1,
        Verdict::NotChecked => 0,
    };
    (rank, row.used.map_or(0.0, Quantity::si))
}
