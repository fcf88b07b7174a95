//! The search: which moves, how much weight ashore and which parts leave fewest rows failing, at the least cost.
//!
//! Parts follow from the loads, so a search looks for places only, and counts the parts that each place asks for.

use super::line::{Cell, Look, Stretch, cells, nearest_share, stretches, widest};
use super::result::Item;
use super::sold::SOLD;
use super::trial::{Knob, Stand, Trial, Values};
use crate::fit::Remedy;
use crate::quantity::show::UnitSystem;
use crate::quantity::unit::{INCH, POUND};
use crate::quantity::{Length, Quantity, STANDARD_GRAVITY, Weight};
use crate::rig::{Key, Reach, Setup};
use crate::study::place::ASSUMED_RANGE;
use std::collections::{BTreeMap, BTreeSet};

/// How many even parts a range is looked at in first: loads on the level run nearly straight; over ramps each look costs.
const PARTS: [u8; 2] = [10, 4];
/// How often the ends of a stretch are looked at again.
const MOST_ROUNDS: usize = 12;
/// Looks nearer than this, in metres, are one.
const NEAR: f64 = 1e-5;
/// Never more than this share of the boat is left ashore.
const MOST_ASHORE: f64 = 0.5;
/// How often parts are sized again: other springs carry other loads.
const MOST_SIZINGS: usize = 8;

/// What a set of changes costs: what stands first weighs more than all that follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(super) struct Cost {
    /// The rows that fail.
    pub fails: usize,
    /// The moves beyond a stated travel.
    pub beyond: usize,
    /// The weight left ashore, in steps.
    pub ashore: u32,
    /// The parts bought.
    pub parts: usize,
    /// The moves.
    pub moves: usize,
    /// The rows that advise or are unsure.
    pub doubts: usize,
}

/// A place for everything that can be moved, and what it costs.
#[derive(Debug, Clone)]
pub(super) struct Candidate {
    /// What is changed, parts aside.
    pub values: Values,
    /// What that costs, with the parts that it asks for.
    pub cost: Cost,
    /// Where else the part moved last could stand at the same count of failing rows and parts.
    pub window: Option<(Knob, Stretch)>,
}

/// What is past its limits at a place.
#[derive(Debug, Clone, Default, PartialEq)]
struct Tally {
    fails: usize,
    items: BTreeSet<Item>,
    advises: usize,
    unsure: usize,
}

/// Something that can be moved.
#[derive(Debug, Clone, Copy)]
struct Mover {
    knob: Knob,
    now: f64,
    /// Where it may go, and where beyond that.
    reach: Stretch,
    far: Option<Stretch>,
}

/// Which place of a stretch is wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Aim {
    /// Its middle, or where the tongue share is nearest to the one preferred.
    Middle,
    /// The one nearest to where the part stands now.
    Least,
}

/// A search of one rig.
pub(super) struct Search<'a> {
    pub trial: Trial,
    setup: &'a Setup,
    units: UnitSystem,
    /// Half of the lightest boat, in newtons.
    most_ashore: f64,
    movers: Vec<Mover>,
    /// Whether parts may be bought, and whether anything may be moved.
    pub buys: bool,
    pub moves: bool,
}

impl<'a> Search<'a> {
    pub fn new(trial: Trial, setup: &'a Setup, units: UnitSystem, lightest_boat: Option<Weight>) -> Self {
        let (shift, travel) = (setup.shift, setup.travel);
        let now = |shift: Option<Length>| shift.map_or(0.0, Quantity::si);
        let stretch = |reach: Reach| (reach.from.si(), reach.to.si());
        let anywhere = (-ASSUMED_RANGE, ASSUMED_RANGE);
        let boat = Mover {
            knob: Knob::Boat,
            now: now(shift.boat),
            reach: travel.boat.map_or(anywhere, stretch),
            far: travel.boat.map(|reach| {
                let (from, to) = stretch(reach);
                (from.min(anywhere.0), to.max(anywhere.1))
            }),
        };
        let others = [
            (Knob::Axles, shift.axles, travel.axles),
            (Knob::Tongue, shift.tongue, travel.tongue),
            (Knob::Bunks, shift.bunks, travel.bunks),
        ];
        let others = others.into_iter().filter_map(|(knob, shift, travel)| {
            Some(Mover { knob, now: now(shift), reach: stretch(travel?), far: None })
        });
        let most_ashore = lightest_boat.map_or(0.0, |boat| boat.si() * MOST_ASHORE);
        let movers = [boat].into_iter().chain(others).collect();
        Self { trial, setup, units, most_ashore, movers, buys: true, moves: true }
    }

    /// What a tape can set, in metres.
    fn grain(&self) -> f64 {
        match self.units {
            UnitSystem::Us => INCH / 16.0,
            UnitSystem::Metric => 0.001,
        }
    }

    /// So many steps of weight left ashore, 10 lb or 5 kg each, in newtons: as reading its text gives it.
    fn ashore(&self, steps: u32) -> f64 {
        match self.units {
            UnitSystem::Us => f64::from(steps * 10) * POUND,
            UnitSystem::Metric => f64::from(steps * 5) * STANDARD_GRAVITY,
        }
    }

    /// The best set of changes, parts aside.
    pub fn best(&mut self) -> Option<Candidate> {
        let mut best = self.placed(&Values::new(), false)?;
        if best.cost.fails > 0 {
            best = self.shed(best, false);
        }
        if best.cost.fails > 0 && self.moves && self.movers.iter().any(|mover| mover.far.is_some()) {
            let far = self.placed(&Values::new(), true);
            let far = far.map(|far| if far.cost.fails > 0 { self.shed(far, true) } else { far });
            best = far.into_iter().fold(best, cheaper);
        }
        Some(best)
    }

    /// A candidate, or the one with the least weight ashore that leaves fewest rows failing, where that are fewer.
    fn shed(&mut self, known: Candidate, far: bool) -> Candidate {
        let most = (self.most_ashore / self.ashore(1)).floor() as u32;
        if most == 0 || !self.any_cure(&known.values, |remedy| remedy == Remedy::Shed) {
            return known;
        }
        let mut found: Option<(u32, Candidate)> = None;
        for eighths in (1..=8).rev() {
            let steps = most * eighths / 8;
            let Some(tried) = self.with_ashore(steps, far) else { continue };
            if found.as_ref().is_none_or(|(_, best)| tried.cost.fails <= best.cost.fails) {
                found = Some((steps, tried));
            } else {
                break;
            }
            // What nothing fails with is not bettered by more; the rest is halved below.
            if found.as_ref().is_some_and(|(_, best)| best.cost.fails == 0) {
                break;
            }
        }
        let Some((mut enough, mut best)) = found.filter(|(_, best)| best.cost.fails < known.cost.fails)
        else {
            return known;
        };
        let mut short = 0;
        while enough - short > 1 {
            let middle = short + (enough - short) / 2;
            match self.with_ashore(middle, far).filter(|tried| tried.cost.fails <= best.cost.fails) {
                Some(tried) => (enough, best) = (middle, tried),
                None => short = middle,
            }
        }
        best
    }

    fn with_ashore(&mut self, steps: u32, far: bool) -> Option<Candidate> {
        let now = self.setup.shift.ashore.map_or(0.0, Quantity::si);
        let ashore = now + self.ashore(steps);
        let mut placed = self.placed(&Values::from([(Knob::Ashore, ashore)]), far)?;
        placed.cost.ashore = steps;
        Some(placed)
    }

    /// Whether what fails with these values has a cure of a kind.
    fn any_cure(&mut self, values: &Values, wanted: impl Fn(Remedy) -> bool) -> bool {
        let now = self.failing(&Values::new());
        let then = self.failing(values);
        let rows = now.union(&then);
        rows.into_iter().any(|row| self.trial.rows[*row].remedies.iter().any(|remedy| wanted(*remedy)))
    }

    /// The best place, with at most two moves.
    fn placed(&mut self, fixed: &Values, far: bool) -> Option<Candidate> {
        let mut best = self.stay(fixed);
        if !self.moves {
            return best;
        }
        let done = |best: &Option<Candidate>| {
            best.as_ref().is_some_and(|best| best.cost.fails == 0 && best.cost.parts == 0)
        };
        if done(&best) {
            return best;
        }
        let movers: Vec<Mover> =
            self.movers.clone().into_iter().filter(|mover| self.cures(mover.knob, fixed)).collect();
        let level = self.leveled(fixed);
        for with_level in std::iter::once(fixed.clone()).chain(level) {
            if with_level.len() > fixed.len() {
                best = best.into_iter().chain(self.stay(&with_level)).reduce(cheaper);
            }
            for mover in &movers {
                best = best.into_iter().chain(self.along(&with_level, mover, far)).reduce(cheaper);
            }
            if done(&best) {
                return best;
            }
        }
        for (i, inner) in movers.iter().enumerate() {
            for outer in &movers[i + 1..] {
                best = best.into_iter().chain(self.pair(fixed, inner, outer, far)).reduce(cheaper);
            }
        }
        best
    }

    /// Whether what fails with these values is cured by something that a knob moves.
    fn cures(&mut self, knob: Knob, fixed: &Values) -> bool {
        self.any_cure(fixed, |remedy| {
            matches!(
                (knob, remedy),
                (Knob::Boat, Remedy::MoveBoat)
                    | (Knob::Axles, Remedy::MoveAxles)
                    | (Knob::Tongue, Remedy::MoveTongue)
                    | (Knob::Bunks, Remedy::MoveBunks)
                    | (Knob::Ball, Remedy::LevelBall)
            )
        })
    }

    /// The values with the ball at the height that levels the frame, where it is at another and that may help.
    fn leveled(&mut self, fixed: &Values) -> Option<Values> {
        let level = self.setup.trailer.level_ball_height?;
        let off = self.setup.tow.ball_height? != level;
        (off && self.cures(Knob::Ball, fixed)).then(|| {
            let mut values = fixed.clone();
            values.insert(Knob::Ball, level.si());
            values
        })
    }

    /// Nothing more moved.
    fn stay(&mut self, fixed: &Values) -> Option<Candidate> {
        let look = self.trial.look(0.0, fixed);
        let tally = self.tally(|limit| look.margins.get(limit).is_some_and(|margin| *margin < 0.0));
        Some(Candidate { values: fixed.clone(), cost: self.cost(fixed, &tally), window: None })
    }

    fn cost(&self, values: &Values, tally: &Tally) -> Cost {
        let outside = |mover: &&Mover| {
            let (from, to) = mover.reach;
            mover.far.is_some() && values.get(&mover.knob).is_some_and(|at| *at < from || *at > to)
        };
        Cost {
            fails: tally.fails,
            beyond: self.movers.iter().filter(outside).count(),
            ashore: 0,
            parts: tally.items.len(),
            moves: values.keys().filter(|knob| **knob != Knob::Ashore).count(),
            doubts: tally.advises + tally.unsure,
        }
    }

    /// The best place along the way of one mover.
    fn along(&mut self, fixed: &Values, mover: &Mover, far: bool) -> Option<Candidate> {
        let (from, to) = if far { mover.far.unwrap_or(mover.reach) } else { mover.reach };
        let aim = if mover.knob == Knob::Boat { Aim::Middle } else { Aim::Least };
        let at = |place: f64| {
            let mut values = fixed.clone();
            values.insert(mover.knob, place);
            values
        };
        let parts = PARTS[usize::from(self.trial.with_ramps)];
        let mut looks: Vec<Look> = Vec::new();
        for part in 0..=parts {
            let place = from + (to - from) * f64::from(part) / f64::from(parts);
            looks.push(self.trial.look(place, &at(place)));
        }
        for _ in 0..MOST_ROUNDS {
            let spot = self.spot(&looks, mover, aim)?;
            let (window, inside) = (spot.window, spot.inside);
            let wanted = [window.0, window.1, inside.0, inside.1, spot.at];
            let wanted: Vec<f64> = wanted
                .into_iter()
                .filter(|place| looks.iter().all(|look| (look.at - place).abs() > NEAR))
                .collect();
            if wanted.is_empty() {
                break;
            }
            for place in wanted {
                let look = self.trial.look(place, &at(place));
                let next = looks.partition_point(|known| known.at < place);
                looks.insert(next, look);
            }
        }
        let spot = self.spot(&looks, mover, aim)?;
        if spot.at == mover.now {
            return None;
        }
        let values = at(spot.at);
        let stood = self.stay(&values)?;
        Some(Candidate { window: (aim == Aim::Middle).then_some((mover.knob, spot.window)), ..stood })
    }

    /// The place to choose along a line.
    fn spot(&self, looks: &[Look], mover: &Mover, aim: Aim) -> Option<Spot> {
        let cells = cells(looks);
        let tallies: Vec<Tally> =
            cells.iter().map(|cell| self.tally(|limit| is_outside(cell, limit))).collect();
        let key = |tally: &Tally| (tally.fails, tally.items.len());
        let best = tallies.iter().map(key).min()?;
        let among = |wanted: &dyn Fn(&Tally) -> bool| {
            stretches(cells.iter().zip(&tallies).map(|(cell, tally)| (cell, wanted(tally))))
        };
        let windows = among(&|tally| key(tally) == best);
        // Of all of these the part in which fewest advise, and of that, where its middle is in doubt, the surest.
        let of_best = || tallies.iter().filter(|tally| key(tally) == best);
        let advises = of_best().map(|tally| tally.advises).min()?;
        let calm = |tally: &Tally| key(tally) == best && tally.advises == advises;
        let unsure = tallies.iter().filter(|tally| calm(tally)).map(|tally| tally.unsure).min()?;
        let choose = |stretches: &[Stretch]| -> Option<(f64, Stretch)> {
            let preferred = self.setup.policy.preferred_tongue_share.filter(|_| aim == Aim::Middle);
            let at = match (aim, preferred) {
                (Aim::Least, _) => {
                    let near = |(from, to): &Stretch| mover.now.clamp(*from, *to);
                    stretches
                        .iter()
                        .map(near)
                        .reduce(|a, b| if (b - mover.now).abs() < (a - mover.now).abs() { b } else { a })?
                }
                (_, Some(share)) if let Some(at) = nearest_share(looks, stretches, share.si()) => at,
                _ => {
                    let (from, to) = widest(stretches)?;
                    f64::midpoint(from, to)
                }
            };
            let inside = stretches.iter().copied().find(|(from, to)| *from <= at && at <= *to)?;
            Some((self.rounded(at, inside), inside))
        };
        let holds = |at: f64, wanted: &dyn Fn(&Tally) -> bool| {
            cells.iter().zip(&tallies).any(|(cell, tally)| cell.from <= at && at <= cell.to && wanted(tally))
        };
        let sure = |tally: &Tally| calm(tally) && tally.unsure == unsure;
        let (mut at, mut inside) = choose(&among(&calm))?;
        if !holds(at, &sure) {
            (at, inside) = choose(&among(&sure))?;
        }
        let window = windows.into_iter().find(|(from, to)| *from <= at && at <= *to).unwrap_or(inside);
        Some(Spot { at, inside, window })
    }

    /// The multiple of what a tape can set that is nearest to a place and lies inside a stretch; the place itself where
    /// none does.
    fn rounded(&self, at: f64, (from, to): Stretch) -> f64 {
        let grain = self.grain();
        let (below, above) = ((at / grain).floor(), (at / grain).ceil());
        let near = if at / grain - below <= above - at / grain { [below, above] } else { [above, below] };
        let inside = |place: &f64| *place >= from - NEAR / 100.0 && *place <= to + NEAR / 100.0;
        near.into_iter().map(|steps| steps * grain).find(inside).unwrap_or(at)
    }

    /// The best place of two movers: the second moved as little as it must be.
    fn pair(&mut self, fixed: &Values, inner: &Mover, outer: &Mover, far: bool) -> Option<Candidate> {
        const STEPS: u8 = 4;
        let key = |candidate: &Candidate| (candidate.cost.fails, candidate.cost.parts);
        let mut best: Option<(f64, f64, Candidate)> = None;
        for end in [outer.reach.0, outer.reach.1] {
            let mut before = outer.now;
            for step in 1..=STEPS {
                let place = outer.now + (end - outer.now) * f64::from(step) / f64::from(STEPS);
                if let Some(tried) = self.at_outer(fixed, inner, outer, place, far) {
                    let nearer = |(_, known, best): &(f64, f64, Candidate)| {
                        let (off, known_off) = ((place - outer.now).abs(), (known - outer.now).abs());
                        key(&tried) < key(best) || (key(&tried) == key(best) && off < known_off)
                    };
                    if best.as_ref().is_none_or(nearer) {
                        best = Some((before, place, tried));
                    }
                }
                before = place;
            }
        }
        let (mut short, mut enough, mut found) = best?;
        let grain = self.grain();
        while (enough - short).abs() > grain {
            let middle = (f64::midpoint(short, enough) / grain).round() * grain;
            if middle == short || middle == enough {
                break;
            }
            match self.at_outer(fixed, inner, outer, middle, far).filter(|tried| key(tried) <= key(&found)) {
                Some(tried) => (enough, found) = (middle, tried),
                None => short = middle,
            }
        }
        Some(found)
    }

    fn at_outer(
        &mut self,
        fixed: &Values,
        inner: &Mover,
        outer: &Mover,
        place: f64,
        far: bool,
    ) -> Option<Candidate> {
        if place == outer.now {
            return None;
        }
        let mut values = fixed.clone();
        values.insert(outer.knob, place);
        self.along(&values, inner, far)
    }

    /// What is past its limits, of limits twice over: as stated and at the worst of the ±.
    fn tally(&self, outside: impl Fn(usize) -> bool) -> Tally {
        let mut fails: BTreeSet<usize> = BTreeSet::new();
        let (mut advises, mut unsure) = (BTreeMap::new(), BTreeMap::new());
        let mut items = BTreeSet::new();
        for (place, limit) in self.trial.limits.iter().enumerate() {
            let (past, doubtful) = (outside(2 * place), outside(2 * place + 1));
            if !past && !doubtful {
                continue;
            }
            let bought = self.buys && self.trial.is_bought(limit);
            match (past, limit.fails) {
                (true, true) if bought => items.extend(self.trial.items(limit.row)),
                (true, true) => {
                    fails.insert(limit.row);
                }
                (false, true) => *unsure.entry(limit.row).or_insert(true) &= bought,
                (_, false) => *advises.entry(limit.row).or_insert(true) &= bought,
            }
        }
        // A part that is bought is bought large enough to leave no doubt.
        let stays = |(row, bought): (&usize, &bool)| {
            let cured = *bought && self.trial.items(*row).all(|item| items.contains(&item));
            !cured && !fails.contains(row)
        };
        let advises: BTreeSet<usize> =
            advises.iter().filter(|entry| stays(*entry)).map(|(row, _)| *row).collect();
        let unsure = unsure.iter().filter(|entry| stays(*entry) && !advises.contains(entry.0)).count();
        Tally { fails: fails.len(), items, advises: advises.len(), unsure }
    }

    /// The rows that fail with these values.
    pub fn failing(&mut self, values: &Values) -> BTreeSet<usize> {
        let Some(stands) = self.trial.stands(values) else { return (0..self.trial.rows.len()).collect() };
        let failing = stands.iter().filter(|stand| self.fails(stand));
        failing.map(|stand| self.trial.limits[stand.limit].row).collect()
    }

    fn fails(&self, stand: &Stand) -> bool {
        stand.margin < 0.0 && self.trial.limits[stand.limit].fails
    }

    /// These values and the parts that they ask for, each with what it must be at least by the loads as stated.
    pub fn with_parts(&mut self, values: &Values) -> (Values, BTreeMap<usize, f64>) {
        let mut parts = Parts { values: values.clone(), needed: BTreeMap::new() };
        if !self.buys {
            return (parts.values, parts.needed);
        }
        self.size(&mut parts, |search, stand| search.fails(stand));
        // What is bought anyway is bought large enough for what it would advise about or leave in doubt.
        let bought: BTreeSet<Item> = parts.needed.keys().map(|place| SOLD[*place].item).collect();
        let each = bought.iter().map(|item| BTreeSet::from([*item]));
        for items in std::iter::once(bought.clone()).chain(each.filter(|_| bought.len() > 1)) {
            let mut larger = parts.clone();
            self.size(&mut larger, |search, stand| {
                let row = search.trial.limits[stand.limit].row;
                search.fails(stand) || search.trial.items(row).all(|item| items.contains(&item))
            });
            if larger.values != parts.values && self.doubts(&larger.values) < self.doubts(&parts.values) {
                parts = larger;
            }
        }
        (parts.values, parts.needed)
    }

    /// How many rows fail, and how many advise or are unsure, with these values as they are.
    fn doubts(&mut self, values: &Values) -> (usize, usize) {
        let look = self.trial.look(0.0, values);
        let buys = std::mem::replace(&mut self.buys, false);
        let tally = self.tally(|limit| look.margins.get(limit).is_some_and(|margin| *margin < 0.0));
        self.buys = buys;
        (tally.fails, tally.advises + tally.unsure)
    }

    /// Sizes the parts by what is wanted of the loads past their limits, until none is.
    fn size(&mut self, parts: &mut Parts, wanted: impl Fn(&Self, &Stand) -> bool) {
        for _ in 0..MOST_SIZINGS {
            let Some(stands) = self.trial.stands(&parts.values) else { return };
            let mut sure: BTreeMap<usize, f64> = BTreeMap::new();
            for need in stands.iter().filter(|stand| wanted(self, stand)).flat_map(|stand| &stand.needs) {
                let known = parts.needed.entry(need.place).or_insert(need.stated);
                *known = known.max(need.stated);
                let known = sure.entry(need.place).or_insert(need.sure);
                *known = known.max(need.sure);
            }
            if !self.buy(parts, &sure) {
                return;
            }
        }
    }

    /// Buys what is at least this; says whether anything is bought that was not.
    fn buy(&self, parts: &mut Parts, sure: &BTreeMap<usize, f64>) -> bool {
        let mut larger = false;
        for (place, need) in sure {
            let mut bought = SOLD[*place].step_up(*need, self.units);
            // Axles come with their springs; all are alike, and none is smaller than one that is there.
            let together: Vec<usize> = match SOLD[*place].item {
                Item::Axles => (0..SOLD.len()).filter(|place| SOLD[*place].item == Item::Axles).collect(),
                _ => vec![*place],
            };
            if SOLD[*place].is_rating() {
                let there = together.iter().flat_map(|place| self.stated(*place));
                bought = there
                    .chain(
                        together.iter().filter_map(|place| parts.values.get(&Knob::Figure(*place)).copied()),
                    )
                    .fold(bought, f64::max);
            }
            for place in together {
                let as_it_is = self.stated(place).iter().all(|stated| *stated == bought)
                    && self.is_stated_everywhere(place);
                if as_it_is {
                    continue;
                }
                larger |= parts.values.insert(Knob::Figure(place), bought) != Some(bought);
            }
        }
        larger
    }

    /// What the rig states of a figure, wherever it does.
    fn stated(&self, place: usize) -> Vec<f64> {
        self.keys(place).iter().filter_map(|key| key.input()?.si(self.setup, key.at)).collect()
    }

    fn is_stated_everywhere(&self, place: usize) -> bool {
        self.stated(place).len() == self.keys(place).len()
    }

    /// The keys of a figure.
    pub fn keys(&self, place: usize) -> Vec<Key> {
        self.trial.variable(Knob::Figure(place)).keys().collect()
    }

    /// The best set of changes with its parts, nothing in it that does not help.
    pub fn solve(&mut self) -> Option<Solution> {
        let mut best = self.best()?;
        let (mut values, mut needed) = self.with_parts(&best.values);
        if self.trial.has_ramps() && !self.trial.with_ramps {
            self.trial.with_ramps = true;
            let over_ramps = |search: &Self, row: &usize| search.trial.is_over_ramps(*row);
            let fails = self.failing(&values).iter().any(|row| over_ramps(self, row));
            if fails || self.failing(&Values::new()).iter().any(|row| over_ramps(self, row)) {
                if fails {
                    best = self.best()?;
                    (values, needed) = self.with_parts(&best.values);
                }
            } else {
                self.trial.with_ramps = false;
            }
        }
        let mut solution =
            Solution { values, needed, window: best.window, cures: BTreeMap::new(), fails: BTreeSet::new() };
        self.prune(&mut solution);
        Some(solution)
    }

    /// Drops what leaves no more rows failing without it, the dearest first, and notes what the rest cures.
    fn prune(&mut self, solution: &mut Solution) {
        let mut fails = self.failing(&solution.values);
        let groups: BTreeSet<Group> = solution.values.keys().map(|knob| Group::of(*knob)).collect();
        for group in groups.into_iter().rev() {
            let without = solution.without(group);
            let failing = self.failing(&without);
            if failing.len() > fails.len() {
                let cured = failing.difference(&fails).map(|row| self.trial.rows[*row].id.clone());
                solution.cures.insert(group, cured.collect());
            } else {
                solution.values = without;
                fails = failing;
            }
        }
        solution.fails = fails;
    }
}

/// One thing to do: something moved, weight left ashore, or a part bought.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Group {
    Set(Knob),
    Item(Item),
}

impl Group {
    pub fn of(knob: Knob) -> Self {
        match knob {
            Knob::Figure(place) => Self::Item(SOLD[place].item),
            other => Self::Set(other),
        }
    }
}

/// A set of changes that nothing can be left out of.
#[derive(Debug, Clone)]
pub(super) struct Solution {
    pub values: Values,
    /// What each figure must be at least.
    pub needed: BTreeMap<usize, f64>,
    pub window: Option<(Knob, Stretch)>,
    /// The ids of the rows that fail without each thing to do.
    pub cures: BTreeMap<Group, Vec<String>>,
    /// The rows that fail all the same.
    pub fails: BTreeSet<usize>,
}

impl Solution {
    /// What there is to do, in order.
    pub fn groups(&self) -> BTreeSet<Group> {
        self.values.keys().map(|knob| Group::of(*knob)).collect()
    }

    fn without(&self, group: Group) -> Values {
        let mut values = self.values.clone();
        values.retain(|knob, _| Group::of(*knob) != group);
        values
    }
}

/// The parts in the making.
#[derive(Debug, Clone)]
struct Parts {
    values: Values,
    needed: BTreeMap<usize, f64>,
}

/// A place along a line.
struct Spot {
    at: f64,
    /// The stretch that it was chosen in.
    inside: Stretch,
    /// The stretch in which as few rows fail and as few parts are asked for.
    window: Stretch,
}

fn is_outside(cell: &Cell, limit: usize) -> bool {
    cell.outside.get(limit).copied().unwrap_or(false)
}

/// The one that costs less, the first of equals.
fn cheaper(one: Candidate, other: Candidate) -> Candidate {
    if other.cost < one.cost { other } else { one }
}
