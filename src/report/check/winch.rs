//! What the winch does on each ramp, and what the tie-downs hold.

use crate::fit::{AtPlace, Known, Running, TieDownLoads, WinchLoads};
use crate::quantity::show::{degrees, percent, trimmed};
use crate::quantity::{Length, Quantity, Weight};
use crate::report::document::{Cell, Holds, Table};
use crate::report::sections::Report;
use crate::report::words;

const UNKNOWN: &str = "unknown";

impl Report<'_> {
    /// The winch on each ramp, in the case in which it pulls most.
    pub(super) fn winch(&mut self) {
        let winch = &self.findings().assessment.winch;
        let ramps: Vec<Option<usize>> = winch.iter().map(|loads| loads.ramp).collect();
        let mut hardest: Vec<&WinchLoads> = Vec::new();
        for (i, ramp) in ramps.iter().enumerate() {
            if ramps[..i].contains(ramp) {
                continue;
            }
            let pull = |loads: &&WinchLoads| {
                let needed = loads.far_out.needed.clone().ok().flatten();
                needed.map_or(0.0, Quantity::si)
            };
            let of_ramp = winch.iter().filter(|loads| loads.ramp == *ramp);
            hardest.extend(of_ramp.reduce(|one, other| if pull(&other) > pull(&one) { other } else { one }));
        }
        for loads in hardest {
            let ramp = loads.ramp.map(|ramp| format!(" on \"{}\"", words::ramp(self.rig(), ramp)));
            let case = words::case(self.rig(), loads.case);
            self.document.heading(format!("Winch{}, \"{case}\"", ramp.unwrap_or_default()));
            for (label, value) in self.winch_facts(loads) {
                self.document.fact(label, value);
            }
        }
    }

    fn winch_facts(&self, loads: &WinchLoads) -> Vec<(&'static str, String)> {
        let units = self.units();
        let weight = |weight: Weight| units.weight(weight);
        let length = |length: Length| units.rough_length(length);
        let pull = |pull: &Known<Option<Weight>>| said(pull, weight, "no pull does");
        let known = |pull: &Known<Weight>| pull.clone().map_or(UNKNOWN.to_string(), weight);
        let at = |place: &AtPlace| {
            let [gives, good_for] = [&place.pull, &place.good_for()].map(known);
            format!("needs {}; good for {good_for}, its {gives} / 1.3", pull(&place.needed))
        };
        let winch = self.rig().proposed().trailer.winch;
        let slides = loads.home.needed == Ok(Some(Weight::default()));
        let longest = said(&loads.longest, length, if slides { "any" } else { "none" });
        let mut facts = vec![
            ("Dragged", known(&loads.dragged)),
            ("Eye at the stop", at(&loads.home)),
            ("Paid out", at(&loads.far_out)),
            (
                "Line to the drum",
                loads.line.clone().map_or(UNKNOWN.to_string(), |(angle, reach)| {
                    format!("{}, {} above the bunks", length(reach), degrees(angle))
                }),
            ),
            ("Lift at the eye", pull(&loads.lift)),
            ("Post's foot", said(&loads.post, |moment| units.moment(moment), "no pull does")),
            (
                "Longest strap",
                format!(
                    "{} still draws it home; the drum holds {}",
                    longest,
                    loads.fits.clone().map_or(UNKNOWN.to_string(), length)
                ),
            ),
        ];
        if winch.has_handle() {
            facts.push(("By hand", pull(&loads.hand)));
        }
        if winch.has_motor() {
            let runs = |running: Running| {
                format!(
                    "{} of the rated torque, {} A, {} min, {}",
                    percent(running.torque),
                    trimmed(running.current.si(), 0),
                    trimmed(running.seconds / 60.0, 1),
                    units.charge(running.charge)
                )
            };
            facts.push(("Motor", said(&loads.motor, runs, "stalls")));
        }
        facts
    }

    /// What the tie-downs must hold of the heaviest boat, and what they do.
    pub(super) fn tie_downs(&mut self) {
        let Some((tied, cases)) = &self.findings().tie_downs else { return };
        let units = self.units();
        let weighs = |case: &&TieDownLoads| case.down.clone().map_or(0.0, Quantity::si);
        let Some(heaviest) =
            cases.iter().reduce(|one, other| if weighs(&other) > weighs(&one) { other } else { one })
        else {
            return;
        };
        let show = |known: Known<Weight>| known.map_or(UNKNOWN.to_string(), |weight| units.weight(weight));
        let mut table = Table::new([
            (Holds::Name, ""),
            (Holds::Numbers, "needed"),
            (Holds::Numbers, "held"),
            (Holds::Numbers, "needed"),
            (Holds::Numbers, "breaks at"),
        ]);
        for (way, name) in ["forward", "aft", "to a side"].into_iter().enumerate() {
            let needed = |all: &Known<[Weight; 3]>| show(all.clone().map(|all| all[way])).into();
            let cells: [Cell; 5] = [
                name.into(),
                needed(&heaviest.working),
                show(tied.working[way].clone()).into(),
                needed(&heaviest.breaking),
                show(tied.breaking[way].clone()).into(),
            ];
            table.rows.push(cells.into());
        }
        for (name, needed, held) in
            [("down", &heaviest.down, &tied.down), ("together", &heaviest.together, &tied.together)]
        {
            let cells = [name.into(), show(needed.clone()).into(), show(held.clone()).into()];
            table.rows.push(cells.into_iter().chain([Cell::default(), Cell::default()]).collect());
        }
        self.document.heading("Tie-downs, the heaviest boat");
        self.document.table(table);
        self.document.paragraph(format!(
            "Friction of 0.3 would hold {} along the bunks; it is counted nowhere, as is the winch's strap.",
            show(heaviest.friction.clone())
        ));
    }
}

/// A value in words, or what is said where there is none.
fn said<T: Clone>(known: &Known<Option<T>>, show: impl Fn(T) -> String, none: &str) -> String {
    match known.clone() {
        Ok(Some(value)) => show(value),
        Ok(None) => none.to_string(),
        Err(_) => UNKNOWN.to_string(),
    }
}
