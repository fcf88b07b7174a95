//! Several rigs side by side, for someone who has to choose: how each stands, what it takes to make it fit, and what cannot
//! be compared because it is missing.

use super::plan::{self, Action, Plan, Room};
use super::sway::{Sway, sway};
use super::uncertainty;
use crate::fit::{
    Assessment, Caution, Group, RigVerdict, Row, Slip, Subject, Unfit, Verdict, gvwr_over_parts,
    gvwr_under_boat,
};
use crate::quantity::Weight;
use crate::rig::{Key, Rig};

/// One of several rigs, with what was found of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// What the reader calls it: the path of its file.
    pub name: String,
    /// The rig.
    pub rig: Rig,
    /// Loads, rows and verdict, all that is uncertain taken into account.
    pub found: Assessment,
    /// What to change so that it holds; `None` where nothing fails.
    pub plan: Option<Plan>,
    /// That the trailer's GVWR is more than its parts can hold, where it is: of its GVWR little is used then; and that it is
    /// [less](Standing::TooSmall) than boat and trailer weigh.
    pub cautions: Vec<Caution>,
}

/// Why a rig stands behind another one of the same verdict: what it takes to make it fit, what stands first weighing more
/// than all that follows, in the order in which a plan is chosen.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Cost {
    /// The checks that fail whatever is done.
    pub fails: usize,
    /// The moves beyond a stated travel.
    pub beyond: usize,
    /// The weight left ashore.
    pub ashore: Weight,
    /// What is made of wood.
    pub wood: usize,
    /// The parts bought.
    pub parts: usize,
    /// The moves.
    pub moves: usize,
    /// The checks that advise or are unsure, as the rig stands.
    pub doubts: usize,
}

/// How sure it is that a rig can be used, the best first: what is known of it counts before what it costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// It passes as it stands.
    Passes,
    /// It fails nothing as stated, but a measurement decides.
    Unsure,
    /// It fails, and passes after its plan.
    PassesAfter,
    /// It fails, and a measurement decides after its plan.
    UnsureAfter,
    /// Nothing checked fails, but so many checks that a verdict needs could not be made.
    Incomplete(usize),
    /// It fails; after its plan nothing checked fails, but so many checks that a verdict needs could not be made.
    IncompleteAfter(usize),
    /// Nothing checked fails, at least after its plan, but the trailer's own weight is missing, and its GVWR leaves less for that
    /// than any trailer weighs.
    TooSmall,
    /// Something fails whatever is done.
    Fails,
}

/// What cannot be compared of a rig because it is missing.
#[derive(Debug, Clone, PartialEq)]
pub struct Gap {
    /// The place of the rig in [`Compared::choices`].
    pub choice: usize,
    /// Of what nothing could be evaluated, and of another rig it could.
    pub subjects: Vec<Subject>,
    /// The checks of all else that could be made of another rig, or that a verdict needs, and not of this one.
    pub checks: Vec<Row>,
    /// What to fill in for them.
    pub keys: Vec<Key>,
}

/// Several rigs, the best first.
#[derive(Debug, Clone, PartialEq)]
pub struct Compared {
    /// The rigs; where two stand alike, in the order in which they were named.
    pub choices: Vec<Choice>,
    /// What is missing.
    pub gaps: Vec<Gap>,
    /// How each rig sways beside the first one, where both are settings of one rig; none of the first itself.
    pub sway: Vec<Option<Sway>>,
    /// Whether every check of every rig stands the same, and the same would make them fit.
    pub is_alike: bool,
}

impl Choice {
    /// A rig assessed whole, with its plan where it fails.
    ///
    /// # Errors
    /// [`Unfit`] when the trailer does not rest on its wheels.
    pub fn of(name: &str, rig: Rig) -> Result<Self, Unfit> {
        let found = uncertainty::assess(&rig)?;
        let plan = plan::of(&rig, &found, false);
        let setup = rig.proposed();
        let slips = [gvwr_under_boat(setup, &found.cases), gvwr_over_parts(setup)];
        let cautions = slips.into_iter().flatten().map(Caution::Slip).collect();
        Ok(Self { name: name.to_string(), rig, found, plan, cautions })
    }

    /// What it takes to make it fit.
    pub fn cost(&self) -> Cost {
        let is_doubt = |row: &&Row| matches!(row.verdict, Verdict::Advise | Verdict::Unsure);
        let mut cost = Cost { doubts: self.found.rows.iter().filter(is_doubt).count(), ..Cost::default() };
        let Some(plan) = &self.plan else {
            // Where there is no plan, what fails goes on failing.
            cost.fails = self.found.rows.iter().filter(|row| row.verdict == Verdict::Fail).count();
            return cost;
        };
        cost.fails = plan.after.fails.len();
        for step in &plan.steps {
            match &step.action {
                Action::Ashore { from, to } => cost.ashore += *to - *from,
                Action::Replace { .. } => cost.parts += 1,
                Action::Move { room, .. } => {
                    cost.moves += 1;
                    cost.beyond += usize::from(matches!(room, Room::Beyond(_)));
                }
                Action::Level { .. } | Action::Inflate { .. } | Action::Shorten { .. } => cost.moves += 1,
                // The rest is bunks.
                _ => cost.wood += 1,
            }
        }
        cost
    }

    /// How sure it is that it can be used.
    pub fn standing(&self) -> Standing {
        let missing = || {
            let is_missing = |row: &&Row| row.core && row.verdict == Verdict::NotChecked;
            self.found.rows.iter().filter(is_missing).count()
        };
        let after = self.plan.as_ref().map(|plan| plan.after.verdict);
        let is_too_small = || {
            let under_boat = |one: &Caution| matches!(one, Caution::Slip(Slip::GvwrUnderBoat { .. }));
            self.cautions.iter().any(under_boat)
        };
        match (self.found.verdict, after) {
            (RigVerdict::Incomplete, _) | (RigVerdict::Fail, Some(RigVerdict::Incomplete))
                if is_too_small() =>
            {
                Standing::TooSmall
            }
            (RigVerdict::Pass, _) => Standing::Passes,
            (RigVerdict::Unsure, _) => Standing::Unsure,
            (RigVerdict::Incomplete, _) => Standing::Incomplete(missing()),
            (RigVerdict::Fail, Some(RigVerdict::Pass)) => Standing::PassesAfter,
            (RigVerdict::Fail, Some(RigVerdict::Unsure)) => Standing::UnsureAfter,
            (RigVerdict::Fail, Some(RigVerdict::Incomplete)) => Standing::IncompleteAfter(missing()),
            (RigVerdict::Fail, Some(RigVerdict::Fail) | None) => Standing::Fails,
        }
    }

    /// The row that stands for a group; none of what the file does not describe, unless it is outside its limits.
    pub fn governing(&self, group: Group) -> Option<&Row> {
        let outside = |row: &Row| !matches!(row.verdict, Verdict::Pass | Verdict::Thin);
        let is_covered = !self.found.not_covered.contains(&group.subject());
        self.found.governing(group).filter(|row| is_covered || outside(row))
    }

    /// The keys that its plan sets, with their texts.
    fn settings(&self) -> Vec<(Key, &str)> {
        let plan = self.plan.iter().flat_map(Plan::settings);
        plan.map(|setting| (setting.key, setting.to.as_str())).collect()
    }

    fn row(&self, other: &Row) -> Option<&Row> {
        self.found.rows.iter().find(|row| row.check == other.check && row.of == other.of)
    }
}

impl Compared {
    /// Whether a rig passes as it stands.
    pub fn has_answer(&self) -> bool {
        self.choices.iter().any(|choice| choice.standing() == Standing::Passes)
    }

    /// The groups of checks of which some rig has a row that could be evaluated, in the order of reports.
    pub fn groups(&self) -> impl Iterator<Item = Group> {
        Group::all().filter(|group| self.choices.iter().any(|choice| choice.governing(*group).is_some()))
    }
}

/// Puts rigs side by side: by how they stand, then by what it takes to make them fit.
pub fn compare(mut choices: Vec<Choice>) -> Compared {
    choices.sort_by(|one, other| {
        let ranks = one.standing().cmp(&other.standing());
        ranks.then(one.cost().partial_cmp(&other.cost()).unwrap_or(std::cmp::Ordering::Equal))
    });
    let gaps = (0..choices.len()).filter_map(|choice| gap(&choices, choice)).collect();
    let is_alike = choices
        .windows(2)
        .all(|pair| pair[0].found.rows == pair[1].found.rows && pair[0].settings() == pair[1].settings());
    let beside = |at: usize| (at > 0).then(|| sway(&choices[0].rig, &choices[at].rig)).flatten();
    let sway = (0..choices.len()).map(beside).collect();
    Compared { choices, gaps, sway, is_alike }
}

fn gap(choices: &[Choice], choice: usize) -> Option<Gap> {
    let here = &choices[choice];
    let is_evaluated = |row: &Row| row.verdict != Verdict::NotChecked;
    let elsewhere = |row: &Row| choices.iter().any(|other| other.row(row).is_some_and(is_evaluated));
    let is_silent = |subject: &Subject| here.found.not_covered.contains(subject);
    let is_described =
        |subject: &Subject| choices.iter().any(|other| !other.found.not_covered.contains(subject));
    let subjects: Vec<Subject> =
        Subject::ALL.into_iter().filter(|subject| is_silent(subject) && is_described(subject)).collect();
    let unmade = here.found.rows.iter().filter(|row| !is_evaluated(row));
    let unmade = unmade.filter(|row| row.core || (elsewhere(row) && !subjects.contains(&row.check.subject)));
    let checks: Vec<Row> = unmade.cloned().collect();
    let mut keys: Vec<Key> = Vec::new();
    for key in checks.iter().flat_map(|row| &row.missing) {
        if !keys.contains(key) {
            keys.push(*key);
        }
    }
    (!checks.is_empty() || !subjects.is_empty()).then_some(Gap { choice, subjects, checks, keys })
}
