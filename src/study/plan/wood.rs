//! What can be made of wood: bunks of another board, bunks that reach farther, and spacers under them.

use super::trial::{Knob, Values, as_taped};
use crate::fit::{board_size, packing, straight_run, supports};
use crate::quantity::show::UnitSystem;
use crate::quantity::unit::INCH;
use crate::quantity::{Length, Quantity};
use crate::rig::inputs::{TRAILER_BUNKS_DEPTH, TRAILER_BUNKS_TOP, TRAILER_BUNKS_WIDTH, TRAILER_KEEL_HEIGHT};
use crate::rig::{Rig, Setup};

/// The boards that are sold, the one with less wood first: nominal inches, common practice, no source.
const BOARDS: &[&str] = &["2x4", "2x6", "2x8", "4x4", "2x10", "2x12", "4x6", "4x8", "4x10", "4x12"];

/// Boards that differ by less, in metres, are one.
const ALIKE: f64 = 1e-6;

/// A rig with bunks of another board on the same brackets: bunks and boat stand as much higher as the board is deeper.
#[derive(Debug, Clone)]
pub(super) struct Board {
    pub name: &'static str,
    pub rig: Rig,
}

/// The rig with every other board that is sold, where its file says which one it has, or its size.
pub(super) fn boards(rig: &Rig) -> Vec<Board> {
    BOARDS.iter().filter_map(|name| Some(Board { name, rig: with_board(rig, name)? })).collect()
}

fn with_board(rig: &Rig, name: &str) -> Option<Rig> {
    let units = rig.measured().units.map_or(UnitSystem::Us, UnitSystem::from);
    let now = board_size(rig.proposed()).ok()?;
    let mut named = rig.proposed().clone();
    named.trailer.bunks.board = Some(name.to_string());
    let size = board_size(&named).ok()?;
    let is_near = |one: Length, other: Length| (one - other).si().abs() < ALIKE;
    if is_near(size.0, now.0) && is_near(size.1, now.1) {
        return None;
    }
    let other = if rig.proposed().trailer.bunks.board.is_some() {
        rig.with(&format!("trailer.bunks.board={name}")).ok()?
    } else {
        // A file has its board by its name or as taped, not both.
        let taped = [TRAILER_BUNKS_WIDTH.path(), TRAILER_BUNKS_DEPTH.path()].map(|path| rig.variable(path));
        let [Ok(width), Ok(depth)] = &taped else { return None };
        rig.changed_to(&[(width, as_taped(size.0.si(), units)), (depth, as_taped(size.1.si(), units))])
            .ok()?
    };
    // The packing that a deeper board would take from the bracket is what it stands higher.
    let (member, _) = *supports(rig.proposed()).ok()?.first()?;
    let deeper = packing(rig.proposed(), member).ok()? - packing(other.proposed(), member).ok()?;
    let raised = |rig: Rig, path: &str| {
        let variable = rig.variable(path).ok()?;
        match rig.value(&variable) {
            Some(stands) => rig.changed(&variable, as_taped(stands + deeper.si(), units)).ok(),
            None => Some(rig),
        }
    };
    // The keel is set by itself: it would follow the bunks' top else, and so would not stand in a file.
    let keel = raised(other, TRAILER_KEEL_HEIGHT.path())?;
    raised(keel, TRAILER_BUNKS_TOP.path())
}

/// Where else the bunks of a rig might end, with the boat where these values put it: aft where support could end,
/// forward where the bottom begins to rise, and both.
pub(super) fn ends(setup: &Setup, boat: f64, units: UnitSystem) -> Vec<Values> {
    let bunks = &setup.trailer.bunks;
    let (Ok(run), Some(forward), Some(aft)) = (straight_run(setup), bunks.forward_end, bunks.aft_end) else {
        return Vec::new();
    };
    // What is cut to a mark: an inch, or 10 mm.
    let grain = match units {
        UnitSystem::Us => INCH,
        UnitSystem::Metric => 0.01,
    };
    let shift = setup.shift;
    // The file states ends as they were before bunks or tongue moved.
    let moved = shift.bunks.unwrap_or_default().si() - shift.tongue.unwrap_or_default().si();
    let by = boat - shift.boat.unwrap_or_default().si() - moved;
    let aft_to = ((run.aft.si() + by) / grain).floor() * grain;
    let forward_to = ((run.forward.si() + by) / grain).ceil() * grain;
    let longer_aft = (aft_to > aft.si()).then_some((Knob::AftEnd, aft_to));
    let longer_forward =
        (forward_to > 0.0 && forward_to < forward.si()).then_some((Knob::ForwardEnd, forward_to));
    let both = longer_aft.into_iter().chain(longer_forward).collect::<Values>();
    let one = |end: Option<(Knob, f64)>| end.into_iter().collect::<Values>();
    let mut found = vec![one(longer_aft), one(longer_forward), both];
    found.retain(|values| !values.is_empty());
    found.dedup();
    found
}

/// By how much spacers may raise the boat, the least first: quarters of an inch up to 3 in, or 5 mm up to 75.
pub(super) fn spacers(units: UnitSystem) -> impl Iterator<Item = f64> {
    let (step, count) = match units {
        UnitSystem::Us => (INCH / 4.0, 12),
        UnitSystem::Metric => (0.005, 15),
    };
    (1..=count).map(move |steps| f64::from(steps) * step)
}
