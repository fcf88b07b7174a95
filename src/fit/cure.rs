//! What would cure a failing check, from the same mechanics that found it.

use super::assess::Assessment;
use super::assess::Row;
use super::bunks;
use super::check::{Amount, Remedy};
use super::misread::assess;
use super::placement::ahead_of_ball;
use super::recalled::Recalled;
use super::road::{tire_allowed, tire_carries, tire_divisor, tire_rating};
use super::scope::Scope;
use super::verdict::Verdict;
use crate::quantity::{Length, Pressure, Quantity, Weight};
use crate::rig::inputs::{SHIFT_ASHORE, SHIFT_BOAT};
use crate::rig::tires::pumped_up;
use crate::rig::{Reach, Rig, Setup, Variable, Varied};

/// One way to cure one failing check.
#[derive(Debug, Clone, PartialEq)]
pub enum Cure {
    /// A part rated for at least this.
    Rating(Amount),
    /// Tires whose sidewalls state at least this.
    Tires {
        /// The rating of each.
        rating: Weight,
        /// The pressure that they are kept at, where that is less than on the sidewall, so that they carry less.
        at: Option<Pressure>,
    },
    /// Tires and wheels each rated for at least this.
    RatingOfEach(Weight),
    /// A part of this size.
    Size(Amount),
    /// So much less in the boat, at its centre of gravity.
    Shed(Weight),
    /// The boat moved aft, or forward when negative.
    MoveBoat {
        /// How far.
        by: Length,
        /// Whether it can go there.
        room: Room,
        /// The checks that count and would fail there though they hold now.
        breaks: Vec<String>,
        /// The checks that count, fail now and would fail by more there.
        worsens: Vec<String>,
    },
    /// The part moved up, or down when negative.
    Raise(Length),
    /// The boat lifted by this on its bunks.
    RaiseBoat(Length),
    /// The tires pumped up to this pressure, cold.
    Inflate(Pressure),
}

/// Whether the boat can go where a cure wants it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Room {
    /// It can.
    Within,
    /// The travel ends before.
    Beyond(Reach),
    /// The file does not say.
    Unstated,
}

/// No boat moves farther than this on its trailer, in metres.
const FARTHEST: f64 = 1.5;
/// Never more than this share of the boat is suggested to be left at home.
const MOST_SHED: f64 = 0.5;
/// A margin this near zero is met: a micrometre, or a ten-thousandth of a newton.
const MET: f64 = 1e-6;
/// The same for weights over a ramp, whose peaks are found to about this, in newtons.
const MET_ON_RAMP: f64 = 0.5;

/// The cures of every failing or advising row that is asked for, in the rows' order.
pub fn cures(rig: &Rig, found: &Assessment, asked: impl Fn(&Row) -> bool) -> Vec<(usize, Vec<Cure>)> {
    let outside = |row: &Row| matches!(row.verdict, Verdict::Fail | Verdict::Advise);
    let rows = found.rows.iter().enumerate().filter(|(_, row)| outside(row) && asked(row));
    let rows: Vec<(usize, &Row)> = rows.collect();
    // A key of the format always leads to its variable.
    let (Ok(boat), Ok(ashore)) = (rig.variable(SHIFT_BOAT.path()), rig.variable(SHIFT_ASHORE.path())) else {
        return Vec::new();
    };
    let (setup, varied, recalled) = (rig.proposed(), Varied::new(rig), Recalled::default());
    let mut search = Search { setup, found, varied, boat, ashore, recalled };
    rows.into_iter().map(|(i, row)| (i, search.cures_of(row))).collect()
}

struct Search<'a> {
    setup: &'a Setup,
    found: &'a Assessment,
    /// The rig in the making.
    varied: Varied,
    boat: Variable,
    ashore: Variable,
    /// What was crossed: the searches for several rows begin at the same places.
    recalled: Recalled,
}

/// A change to try: which of the proposal's shifts, and how much more of it, in SI.
#[derive(Clone, Copy)]
enum Try {
    Boat(f64),
    Ashore(f64),
}

impl Search<'_> {
    fn cures_of(&mut self, row: &Row) -> Vec<Cure> {
        row.check.remedies.iter().filter_map(|remedy| self.cure(row, *remedy)).collect()
    }

    fn cure(&mut self, row: &Row, remedy: Remedy) -> Option<Cure> {
        match remedy {
            // A rating does not help against a trailer that lifts.
            Remedy::Rating | Remedy::Buy(_) | Remedy::Plates(_) => {
                row.load.filter(|load| load.si() > 0.0).map(Cure::Rating)
            }
            Remedy::Tires => {
                let share = self.at_pressure(row)?;
                let at = self.setup.trailer.axles[row.of.element()].tires.pressure.filter(|_| share < 1.0);
                Some(Cure::Tires { rating: self.sidewall(row, share)?, at })
            }
            Remedy::Inflate => self.inflate(row),
            Remedy::TiresTogether => {
                let count = self.setup.trailer.axles[row.of.element()].tires.count.unwrap_or(2);
                self.sidewall(row, f64::from(count)).map(Cure::RatingOfEach)
            }
            Remedy::Size(_) => row.max.map(Cure::Size),
            Remedy::Raise => {
                let (Amount::Length(at), Amount::Length(min)) = (row.load?, row.min?) else { return None };
                let over_fender = row.check.id == "clearance-fender";
                let rise = if over_fender { bunks::rise_over_fender(self.setup).ok()?? } else { min - at };
                Some(Cure::RaiseBoat(rise))
            }
            Remedy::Reset => {
                let (Amount::Length(at), Amount::Length(min), Amount::Length(max)) =
                    (row.load?, row.min?, row.max?)
                else {
                    return None;
                };
                Some(Cure::Raise((min + max) / 2.0 - at))
            }
            Remedy::Shed => self.shed(row),
            Remedy::MoveBoat => self.move_boat(row),
            // The boat alone is moved here; the bunks' own report has what would suit them, the plan which bore or strap.
            Remedy::MoveAxles
            | Remedy::MoveTongue
            | Remedy::MoveBunks
            | Remedy::LevelBall
            | Remedy::Ends
            | Remedy::Board
            | Remedy::Crossmember
            | Remedy::Bore
            | Remedy::Shorten => None,
        }
    }

    /// The tires of a row pumped up, where they then carry its load.
    fn inflate(&self, row: &Row) -> Option<Cure> {
        let axle = row.of.element();
        let pressure = self.setup.trailer.axles[axle].tires.pressure?;
        let (to, _) = pumped_up(self.setup, axle)?;
        let Amount::Weight(load) = row.load? else { return None };
        let carries = tire_carries(self.setup, axle, to).ok()?;
        (pressure < to && load <= carries).then_some(Cure::Inflate(to))
    }

    /// The share of its rating that a tire may carry at its pressure.
    fn at_pressure(&self, row: &Row) -> Option<f64> {
        let axle = row.of.element();
        let share = tire_allowed(self.setup, axle).ok()? / tire_rating(self.setup, axle).ok()?;
        Some(share.si())
    }

    /// What the sidewall of each of so many tires must say for a row's load.
    fn sidewall(&self, row: &Row, tires: f64) -> Option<Weight> {
        let Amount::Weight(load) = row.load? else { return None };
        Some(load / tires * tire_divisor(self.setup, row.of.element()))
    }

    fn shed(&mut self, row: &Row) -> Option<Cure> {
        let boats = self.found.cases.iter().filter_map(|case| case.boat.as_ref().ok());
        let most = boats.copied().reduce(Weight::min)?.si() * MOST_SHED;
        let shed = self.reach_zero(row, Try::Ashore, 1.0, most)?;
        Some(Cure::Shed(Weight::from_si(shed)))
    }

    fn move_boat(&mut self, row: &Row) -> Option<Cure> {
        // The way that widens the gap is the way to go.
        let small = 1e-3;
        let aft = self.gap(row, Try::Boat(small))? > self.gap(row, Try::Boat(-small))?;
        let way = if aft { 1.0 } else { -1.0 };
        let distance = self.reach_zero(row, |distance| Try::Boat(way * distance), small, FARTHEST)?;
        let by = Length::from_si(way * distance);
        let (breaks, worsens) = self.harm(Try::Boat(by.si()))?;
        Some(Cure::MoveBoat { by, room: self.room(by), breaks, worsens })
    }

    /// The least step from zero at which all cases are inside the row's limits, if it lies within `most`.
    ///
    /// The gap is the least of smooth, nearly straight lines, so it bends down if at all: secant steps from
    /// below close in on the first place where it is zero.
    fn reach_zero(&mut self, row: &Row, change: impl Fn(f64) -> Try, small: f64, most: f64) -> Option<f64> {
        let (mut before, mut step) = (0.0, small);
        let mut gap_before = self.gap(row, change(before))?;
        for _ in 0..60 {
            let gap = self.gap(row, change(step))?;
            if gap >= -met(row) {
                return Some(step);
            }
            let slope = (gap - gap_before) / (step - before);
            if slope <= 0.0 {
                return None;
            }
            (before, gap_before) = (step, gap);
            step -= gap / slope;
            if step > most || step <= before {
                return None;
            }
        }
        None
    }

    /// How far a row's loads lie inside its limits after a change, if the trailer rests there.
    fn gap(&mut self, row: &Row, change: Try) -> Option<f64> {
        let scope = Scope::of(self.setup, |asked| asked.check == row.check && asked.of == row.of);
        let Self { varied, boat, ashore, setup, recalled, .. } = self;
        let rig = changed(varied, [boat, ashore], setup, change)?;
        let facts = scope.facts_recalling(rig, recalled).ok()?;
        // Unlike a row's margin the least of all knows both limits at once: it has no jump to stumble over.
        let mut least = Some(f64::INFINITY);
        scope.compare(rig.proposed(), &facts, |_, comparison| {
            let margin = comparison.standing.ok().map(|standing| standing.margin);
            least = least.zip(margin).map(|(least, margin)| least.min(margin));
        });
        least.filter(|least| least.is_finite())
    }

    fn room(&self, by: Length) -> Room {
        let goes_to = self.setup.shift.boat.unwrap_or_default() + by;
        match self.setup.travel.boat {
            None => Room::Unstated,
            Some(reach) if goes_to >= reach.from && goes_to <= reach.to => Room::Within,
            Some(reach) => Room::Beyond(reach),
        }
    }

    /// The checks that would fail after a change though they hold now, and those that fail now and would fail by more.
    fn harm(&mut self, change: Try) -> Option<(Vec<String>, Vec<String>)> {
        let (mut breaks, mut worsens) = (Vec::new(), Vec::new());
        let Self { varied, boat, ashore, setup, .. } = self;
        let there = changed(varied, [boat, ashore], setup, change).map(assess);
        let Some(Ok(there)) = there else { return Some((breaks, worsens)) };
        // No move is good for anything that may lift the tongue, or load it past all bounds.
        there.check("tongue-share")?.load?;
        for then in &there.rows {
            // A row that comes with the change, as of a crossmember that the boat lay clear of, held until now.
            let before = self.found.rows.iter().find(|row| row.check == then.check && row.of == then.of);
            let Some(now) = before else {
                if then.verdict == Verdict::Fail && !barely_out(then) {
                    breaks.push(then.id());
                }
                continue;
            };
            let margin = |row: &Row| row.margin.map_or(0.0, Amount::si);
            match (now.verdict, then.verdict) {
                (Verdict::Fail, Verdict::Fail) if margin(then) < margin(now) - met(now) => {
                    worsens.push(then.id());
                }
                (Verdict::Fail, _)
                | (
                    _,
                    Verdict::Pass | Verdict::Thin | Verdict::Unsure | Verdict::Advise | Verdict::NotChecked,
                ) => {}
                (_, Verdict::Fail) if barely_out(then) => {}
                (_, Verdict::Fail) => breaks.push(then.id()),
            }
        }
        Some((breaks, worsens))
    }
}

/// The rig with a change, if the file's rules allow it.
fn changed<'a>(
    varied: &'a mut Varied,
    [boat, ashore]: [&Variable; 2],
    setup: &Setup,
    change: Try,
) -> Option<&'a Rig> {
    let now = [setup.shift.boat.map_or(0.0, Quantity::si), setup.shift.ashore.map_or(0.0, Quantity::si)];
    // What the other change left behind is put back.
    let [boat_to, ashore_to] = match change {
        Try::Boat(by) => [now[0] + by, now[1]],
        Try::Ashore(more) => [now[0], now[1] + more],
    };
    let rig = varied.with(&[(boat, boat_to), (ashore, ashore_to)]).ok()?;
    let ahead = |setup: &Setup| ahead_of_ball(setup).map_or(0.0, Quantity::si);
    (ahead(rig.proposed()) <= ahead(setup)).then_some(rig)
}

/// How near zero a row's gap counts as met.
fn met(row: &Row) -> f64 {
    match row.load {
        Some(Amount::Weight(_)) if row.is_about_ramps() => MET_ON_RAMP,
        _ => MET,
    }
}

/// Whether a row is outside by no more than the search's own tolerance.
fn barely_out(row: &Row) -> bool {
    row.margin.is_some_and(|margin| margin.si() >= -2.0 * met(row))
}
