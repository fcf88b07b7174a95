//! The plan: what it says of a rig is what becomes of it.

use bunkline::Rig;
use bunkline::quantity::show::UnitSystem;
use bunkline::report::{plan as report, text};
use bunkline::study::plan::{Plan, plan};

fn demo(name: &str, changes: &[&str]) -> Rig {
    let path = format!("{}/demo-data/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).expect("a demo");
    Rig::read(name, &text, changes).unwrap_or_else(|problems| panic!("{problems}"))
}

fn planned(rig: &Rig) -> Plan {
    plan(rig).expect("a trailer at rest").expect("it fails")
}

#[test]
fn look() {
    for (name, changes) in [
        ("electric-day-launch", &[][..]),
        ("fishing-skiff", &["shift.boat=14 in"]),
        ("fishing-skiff", &["trailer.gvwr=2500 lb"]),
        ("pilot-cutter", &["trailer.gvwr=3300 kg"]),
        ("crab-boat", &["trailer.coupler.rating=5000 lb"]),
        ("survey-launch-as-found", &[]),
        ("survey-launch-as-changed", &["shift.boat=0 in"]),
    ] {
        let rig = demo(name, changes);
        let begin = std::time::Instant::now();
        let plan = plan(&rig).expect("rests");
        let took = begin.elapsed();
        match plan {
            None => println!("== {name} {changes:?}: no plan {took:?}"),
            Some(plan) => {
                let units = rig.proposed().units.map_or(UnitSystem::Us, UnitSystem::from);
                println!("== {name} {changes:?} {took:?} {:?}", plan.after.verdict);
                println!("{}", text::render(&report::section(&plan, units), 80, false));
                for step in &plan.steps {
                    println!(
                        "   cures {:?} {:?}",
                        step.cures,
                        step.settings.iter().map(|s| s.to.clone()).collect::<Vec<_>>()
                    );
                }
            }
        }
    }
    let _ = planned;
}
