//! What the ball and each axle carry in each case, as a picture.

use crate::fit::{Assessment, Carried, Row};
use crate::quantity::show::UnitSystem;
use crate::quantity::{Quantity, Weight};
use crate::report::document::Picture;
use crate::report::plot::{Bars, Group, Load};
use crate::report::words;
use crate::rig::Rig;

/// Loads on level ground by case, against their limits; `None` where there is one case alone, or nothing is known.
pub fn loads_by_case(
    rig: &Rig,
    assessment: &Assessment,
    is_planned: bool,
    units: UnitSystem,
) -> Option<Picture> {
    if assessment.cases.len() < 2 {
        return None;
    }
    let carried = |case: usize| assessment.cases[case].level.as_ref().ok();
    let group = |name: String, id: &str, load: &dyn Fn(&Carried) -> Option<Weight>| {
        let limit = assessment.check(id).and_then(|row: &Row| row.max);
        let loads = (0..assessment.cases.len()).filter_map(|case| {
            let load = load(carried(case)?)?;
            let name = words::case(rig, case).to_string();
            Some(Load { name, at: load.si(), shown: units.weight(load) })
        });
        let limit = limit.map(|limit| (limit.si(), format!("limit {}", words::amount(limit, units))));
        Group { name, limit, loads: loads.collect() }
    };
    let tongue = group("tongue".to_string(), "coupler-tongue", &|carried| Some(carried.stance.tongue_weight));
    let axles = (0..rig.proposed().trailer.axles.len()).map(|axle| {
        let load = |carried: &Carried| carried.stance.axle_loads.get(axle).copied();
        group(format!("axle {}", axle + 1), &format!("axle-{}", axle + 1), &load)
    });
    let groups: Vec<Group> =
        [tongue].into_iter().chain(axles).filter(|group| !group.loads.is_empty()).collect();
    let said = groups.iter().map(|group| {
        let loads: Vec<String> =
            group.loads.iter().map(|load| format!("{} {}", load.name, load.shown)).collect();
        format!("{}: {}", group.name, loads.join(", "))
    });
    let title = if is_planned { "Loads by case, after all that is to be done" } else { "Loads by case" };
    let bars = Bars { title: title.to_string(), said: said.collect::<Vec<_>>().join("; "), groups };
    Some(Picture { caption: format!("{title}, on level ground").into(), svg: bars.drawn()? })
}
