//! The chain from the tow vehicle to the tires and the straps: how much of each link is used.

use super::assess::{Assessment, Row};
use super::verdict::Verdict;
use crate::rig::Key;

/// One link, by the row about it of which most is used.
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
    ("ball", &["ball", "ball-tongue"]),
    ("coupling plates", &["coupling-d"]),
    ("coupler", &["coupler", "coupler-tongue"]),
    ("drawbar", &["drawbar-tongue", "coupling-dc", "coupling-v"]),
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
                evaluated.reduce(|worst, next| if next.weight() > worst.weight() { next } else { worst });
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
            let weak = |link: &Link<'_>| link.row.map_or(-1.0, Row::weight);
            weak(other).total_cmp(&weak(one))
        });
        links
    }
}
