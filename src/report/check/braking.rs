//! Stops and descents, case by case.

use super::balance::{abreast, case_columns};
use crate::fit::{BrakeLoads, RailLoads, Stop};
use crate::quantity::show::percent;
use crate::quantity::{Moment, Pressure, Quantity, Share, Weight};
use crate::report::document::{Cell, Table};
use crate::report::sections::Report;

impl Report<'_> {
    /// What a stop and the descent ask of the trailer's brakes and of the tow vehicle, where the file describes brakes.
    pub fn braking(&mut self) {
        let brakes = &self.findings().assessment.brakes;
        if brakes.is_empty() {
            return;
        }
        self.document.heading("Braking: a stop at 0.435 g, and the descent at a steady speed");
        for block in abreast(brakes.len()) {
            let columns = case_columns(block.clone(), brakes.len());
            let mut rows = self.braking_rows(&brakes[block.clone()]);
            rows.extend(self.rails_in_stop(block));
            self.document.table(Table { columns, rows });
        }
    }

    fn braking_rows(&self, brakes: &[BrakeLoads]) -> Vec<Vec<Cell>> {
        let units = self.units();
        let axles = self.rig().proposed().trailer.axles.len();
        let mut rows: Vec<Vec<Cell>> = Vec::new();
        let mut add = |label: String, value: &dyn Fn(&BrakeLoads) -> Option<String>| {
            let cells = brakes.iter().map(|of| value(of).unwrap_or_else(|| "unknown".to_string()).into());
            rows.push([label.into()].into_iter().chain(cells).collect());
        };
        let show = |weight: Weight| units.weight(weight);
        let stop = |of: &BrakeLoads, what: &dyn Fn(&Stop) -> Option<Weight>| {
            of.stop.as_ref().ok().and_then(what).map(show)
        };
        add("stop: push at the coupler".into(), &|of| stop(of, &|stop| Some(stop.trailer.push)));
        add("stop: trailer's brakes".into(), &|of| stop(of, &|stop| Some(stop.trailer.braked())));
        add("stop: tow vehicle's brakes".into(), &|of| stop(of, &|stop| stop.by_tow.clone().ok()));
        add("  without the trailer's".into(), &|of| of.by_tow_alone.clone().ok().map(show));
        add("  on the descent".into(), &|of| of.stop_downhill.as_ref().ok()?.by_tow.clone().ok().map(show));
        add("stop: tongue weight".into(), &|of| stop(of, &|stop| Some(stop.trailer.stance.tongue_weight)));
        for axle in 0..axles {
            add(format!("stop: axle {}, its brakes", axle + 1), &|of| {
                let trailer = &of.stop.as_ref().ok()?.trailer;
                Some(format!("{}, {}", show(trailer.stance.axle_loads[axle]), show(trailer.brakes[axle])))
            });
        }
        add("stop: pressure in the line".into(), &|of| of.pressure.clone().ok().map(|p| units.inflation(p)));
        add("stop: piston's travel".into(), &|of| of.stroke.as_ref().ok().map(|s| units.distance(s.travel)));
        add("descent: push, brakes on".into(), &|of| Some(show(of.descent.as_ref().ok()?.applied.push)));
        add("descent: push, released".into(), &|of| Some(show(of.descent.as_ref().ok()?.released.push)));
        add("descent: held in gear".into(), &|of| Some(show(of.descent.as_ref().ok()?.released.by_tow)));
        add("  as a grade, alone".into(), &|of| {
            Some(percent(Share::from(of.descent.as_ref().ok()?.grade_alone?.0)))
        });
        rows
    }

    /// The moment and the stress of the rails in a stop, beside those at rest; nothing where the file does not describe them.
    fn rails_in_stop(&self, cases: std::ops::Range<usize>) -> Vec<Vec<Cell>> {
        let units = self.units();
        if !self.rig().proposed().trailer.rails.are_described() {
            return Vec::new();
        }
        let rails = cases.map(|case| self.findings().assessment.frames.get(case)?.rails.as_ref().ok());
        let rails: Vec<Option<&RailLoads>> = rails.collect();
        let row = |label: &str, value: &dyn Fn(&RailLoads) -> Option<(Moment, Pressure)>| {
            let cells = rails.iter().map(|rails| match rails.and_then(value) {
                Some((moment, stress)) => {
                    format!("{}, {}", units.moment(Moment::from_si(moment.si().abs())), units.stress(stress))
                        .into()
                }
                None => "unknown".into(),
            });
            [label.into()].into_iter().chain(cells).collect()
        };
        vec![
            row("stop: rails' moment, stress", &|rails| {
                let stop = rails.stop.as_ref().ok()?;
                Some((stop.moment, stop.stress.clone().ok()?))
            }),
            row("  at rest", &|rails| Some((rails.moment, rails.stress.clone().ok()?))),
        ]
    }
}
