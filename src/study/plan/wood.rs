//! What can be made of wood: bunks of another board, bunks that reach farther, and spacers under them; and crossmembers that are
//! added, which go with it.

use super::trial::{Knob, Values, as_taped};
use crate::fit::{self, board_size, crossmember_rating, packing, straight_run, supports};
use crate::quantity::show::UnitSystem;
use crate::quantity::unit::INCH;
use crate::quantity::{Length, Quantity};
use crate::rig::inputs::{TRAILER_BUNKS_DEPTH, TRAILER_BUNKS_TOP, TRAILER_BUNKS_WIDTH, TRAILER_KEEL_HEIGHT};
use crate::rig::{Rig, Setup};

/// The boards that are sold, the one with less wood first: nominal inches, common practice, no source.
const BOARDS: &[&str] = &["2x4", "2x6", "2x8", "4x4", "2x10", "2x12", "4x6", "4x8", "4x10", "4x12"];

/// Boards that differ by less, in metres, are one.
const ALIKE: f64 = 1e-6;

/// How many of the longest spans a crossmember might be added in.
const LONGEST: usize = 3;

/// What a rig would be built with instead; by default as it is.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Design {
    /// The board that the bunks are of.
    pub board: Option<&'static str>,
    /// The crossmembers that are added.
    pub added: Vec<Added>,
}

/// A crossmember that is added.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Added {
    /// Where the file would state it.
    pub station: Length,
    /// The one that it is like, counted from 0.
    pub like: usize,
}

impl Design {
    /// How many changes it makes. That a crossmember counts as one, as a board does, is a choice: both are a day's work under the
    /// boat.
    pub fn changes(&self) -> usize {
        usize::from(self.board.is_some()) + self.added.len()
    }

    /// A rig built so: on the same brackets bunks and boat stand as much higher as the board is deeper. `None` where the file does
    /// not say enough.
    pub fn of(&self, rig: &Rig) -> Option<Rig> {
        let mut built = match self.board {
            Some(name) => with_board(rig, name)?,
            None => rig.clone(),
        };
        for added in &self.added {
            built = built.with_crossmember(added.like, added.station).ok()?;
        }
        Some(built)
    }
}

/// Every other design, those with fewer changes first: each of the other boards, if any, with up to two crossmembers more.
pub(super) fn designs(rig: &Rig) -> Vec<Design> {
    let boards: Vec<Option<&str>> = BOARDS.iter().copied().map(Some).collect();
    let added = crossmembers(rig.proposed());
    let plain = std::iter::once(None).chain(boards);
    let mut designs: Vec<Design> = plain
        .flat_map(|board| {
            let added = std::iter::once(Vec::new()).chain(added.iter().cloned());
            added.map(move |added| Design { board, added })
        })
        .filter(|design| design.changes() > 0)
        .collect();
    // Of as many changes the boards come first: the order of the registry.
    designs.sort_by_key(|design| (design.changes(), design.added.len()));
    designs
}

/// Where one or two crossmembers might be added: in one of the longest spans under the bunks, in two of them, or at the thirds of
/// one.
fn crossmembers(setup: &Setup) -> Vec<Vec<Added>> {
    let mut spans = spans(setup).unwrap_or_default();
    // The foremost of equals first.
    spans.sort_by(|one, other| other.weight().total_cmp(&one.weight()));
    spans.truncate(LONGEST);
    let added = |span: &Span, share: f64| {
        let at = span.from + (span.to - span.from) * share;
        Added {
            station: Length::from_si(marked(at, units(setup))),
            like: neighbour(setup, span.members, share),
        }
    };
    let within = |span: &Span| added(span, span.share());
    let singly = spans.iter().map(|span| vec![within(span)]);
    let between = spans.iter().filter(|span| span.end.is_none());
    let thirds = between.map(|span| vec![added(span, 1.0 / 3.0), added(span, 2.0 / 3.0)]);
    let pairs = spans.iter().enumerate().flat_map(|(i, one)| {
        spans[i + 1..].iter().map(|other| vec![within(one), within(other)]).collect::<Vec<_>>()
    });
    singly.chain(pairs).chain(thirds).collect()
}

/// A stretch of bunk without a crossmember under it, as the file states stations.
struct Span {
    from: f64,
    to: f64,
    /// The crossmembers at its ends; the same one where a bunk's end hangs free.
    members: [usize; 2],
    /// Which end of the bunks hangs free, if one does.
    end: Option<End>,
}

#[derive(Clone, Copy)]
enum End {
    Forward,
    Aft,
}

impl Span {
    /// How much it asks for another crossmember: a free end bends its bunk as a span of twice its length does.
    fn weight(&self) -> f64 {
        (self.to - self.from) * if self.end.is_some() { 2.0 } else { 1.0 }
    }

    /// Where in it one more stands: in the middle, or under a free end as far from it as bunks are held back.
    fn share(&self) -> f64 {
        match self.end {
            None => 1.0 / 2.0,
            Some(End::Forward) => 1.0 / 4.0,
            Some(End::Aft) => 3.0 / 4.0,
        }
    }
}

/// The spans under the bunks and their free ends, the foremost first.
fn spans(setup: &Setup) -> Option<Vec<Span>> {
    let mut under: Vec<(usize, Length)> = supports(setup).ok()?;
    under.sort_by(|(_, one), (_, other)| one.si().total_cmp(&other.si()));
    let station = |member: usize| setup.trailer.crossmembers[member].station.map(Quantity::si);
    let ((first, foremost), (last, _)) = (under.first().copied()?, under.last().copied()?);
    // Bunks and tongue may have moved since the file's stations were taped.
    let moved = foremost.si() - station(first)?;
    let ends = fit::ends(setup).ok()?;
    let [forward, aft] = [ends.forward, ends.aft].map(|end| end.si() - moved);
    let free =
        |from: f64, to: f64, member: usize, end: End| Span { from, to, members: [member; 2], end: Some(end) };
    let mut spans = vec![free(forward, station(first)?, first, End::Forward)];
    for pair in under.windows(2) {
        let [from, to] = [pair[0].0, pair[1].0];
        spans.push(Span { from: station(from)?, to: station(to)?, members: [from, to], end: None });
    }
    spans.push(free(station(last)?, aft, last, End::Aft));
    Some(spans)
}

/// Of the two crossmembers at a span's ends the one that another at a share of the span is like: the one whose strength is known, and
/// of both the nearer.
fn neighbour(setup: &Setup, [forward, aft]: [usize; 2], share: f64) -> usize {
    let is_rated = |member: usize| crossmember_rating(setup, member).is_ok();
    match (is_rated(forward), is_rated(aft)) {
        (true, false) => forward,
        (false, true) => aft,
        _ if share > 1.0 / 2.0 => aft,
        _ => forward,
    }
}

fn units(setup: &Setup) -> UnitSystem {
    setup.units.map_or(UnitSystem::Us, UnitSystem::from)
}

/// The nearest place that can be marked: to the inch, or to 10 mm.
fn marked(at: f64, units: UnitSystem) -> f64 {
    let grain = mark(units);
    (at / grain).round() * grain
}

/// What is cut to a mark: an inch, or 10 mm.
fn mark(units: UnitSystem) -> f64 {
    match units {
        UnitSystem::Us => INCH,
        UnitSystem::Metric => 0.01,
    }
}

fn with_board(rig: &Rig, name: &str) -> Option<Rig> {
    let units = units(rig.measured());
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
    let grain = mark(units);
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
