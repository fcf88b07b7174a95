//! The search: which moves, how much weight ashore and which parts leave fewest rows failing, at the least cost.
//!
//! Parts follow from the loads, so a search looks for places only, and counts the parts that each place asks for.

use super::line::{Cell, Look, Stretch, cells, nearest_share, stretches, widest};
use super::result::Item;
use super::sold::{self, SOLD};
use super::trial::{Knob, Stand, Trial, Values, figure, inflates, is_plausible_on_a_sidewall};
use super::wood::{self, Design};
use crate::fit::{Remedy, behind_ball, shortest_strap};
use crate::quantity::show::UnitSystem;
use crate::quantity::unit::{INCH, POUND};
use crate::quantity::{Length, Pressure, Quantity, STANDARD_GRAVITY, Weight};
use crate::rig::inputs::{TRAILER_AXLES_TIRES_RATING, TRAILER_AXLES_WHEELS_RATING, TRAILER_BRAKES_BORE};
use crate::rig::tires::{index_for, load_of_index, pumped_up};
use crate::rig::{Key, Reach, Rig, Setup};
use crate::study::place::ASSUMED_RANGE;
use std::collections::{BTreeMap, BTreeSet};

/// How many even parts a range is looked at in first: loads on the level run nearly straight; over ramps each look costs.
const PARTS: [u8; 2] = [10, 4];
/// The same for what conflicts with what.
const CONFLICT_PARTS: u8 = 40;
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
    /// What is made of wood.
    pub wood: usize,
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
    rig: &'a Rig,
    setup: &'a Setup,
    units: UnitSystem,
    /// Half of the lightest boat, or all of it but her heaviest part, in newtons.
    most_ashore: f64,
    movers: Vec<Mover>,
    /// What is changed whatever the place: wood, and axles, whose springs change the loads.
    base: Values,
    /// What the rig on trial is built with.
    design: Design,
    /// Every rig built otherwise that was looked at.
    built: Vec<(Design, Rig)>,
    /// Whether weight ashore and moves beyond the travel are spared.
    spares: bool,
    /// What leaves more rows failing is not wanted.
    most_fails: usize,
    /// Whether parts may be bought, and anything moved.
    pub buys: bool,
    pub moves: bool,
}

impl<'a> Search<'a> {
    /// `balances` says whether tongue and axles can be computed wherever the boat lies; else nothing that they hang on is moved.
    pub fn new(
        trial: Trial,
        rig: &'a Rig,
        units: UnitSystem,
        lightest_boat: Option<Weight>,
        balances: bool,
    ) -> Self {
        let setup = rig.proposed();
        let (shift, travel) = (setup.shift, setup.travel);
        let now = |shift: Option<Length>| shift.map_or(0.0, Quantity::si);
        let stretch = |reach: Reach| (reach.from.si(), reach.to.si());
        let anywhere = (-ASSUMED_RANGE, ASSUMED_RANGE);
        let foremost = behind_ball(setup).map_or(f64::NEG_INFINITY, |stop| now(shift.boat) - stop.si());
        let on_trailer = |(from, to): Stretch| (from.max(foremost).min(to), to);
        let boat = Mover {
            knob: Knob::Boat,
            now: now(shift.boat),
            reach: on_trailer(travel.boat.map_or(anywhere, stretch)),
            far: travel.boat.map(|reach| {
                let (from, to) = stretch(reach);
                on_trailer((from.min(anywhere.0), to.max(anywhere.1)))
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
        // Of a boat in parts the heaviest, her hull, comes along.
        let parts = setup.boat.weights.iter().filter_map(|part| part.weight);
        let hull = parts.clone().reduce(Weight::max).filter(|_| parts.count() > 1).unwrap_or_default();
        // No case may be assessed with less aboard than it can have: the one that carries least decides.
        let most_ashore =
            lightest_boat.map_or(0.0, |boat| (boat * MOST_ASHORE).min(boat - hull).si().max(0.0));
        let may_move = |mover: &Mover| balances || mover.knob == Knob::Bunks;
        let movers = [boat].into_iter().chain(others).filter(may_move).collect();
        Self {
            trial,
            rig,
            setup,
            units,
            most_ashore,
            movers,
            base: Values::new(),
            design: Design::default(),
            built: Vec::new(),
            spares: false,
            most_fails: usize::MAX,
            buys: true,
            moves: true,
        }
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
        let base = self.base.clone();
        let mut best = self.placed(&base, false)?;
        if self.spares {
            return Some(best);
        }
        if best.cost.fails > 0 {
            best = self.shed(best, false);
        }
        if best.cost.fails > 0 && self.moves && self.movers.iter().any(|mover| mover.far.is_some()) {
            let far = self.placed(&base, true);
            let far = far.map(|far| if far.cost.fails > 0 { self.shed(far, true) } else { far });
            best = far.into_iter().fold(best, cheaper);
        }
        Some(best)
    }

    /// A candidate, or the one with the least weight ashore that leaves fewest rows failing, where that are fewer.
    fn shed(&mut self, known: Candidate, far: bool) -> Candidate {
        let most = whole(self.most_ashore / self.ashore(1));
        if most == 0 || !self.any_cure(&known.values, |remedy| remedy == Remedy::Shed) {
            return known;
        }
        let least = self.least_ashore(&known.values).max(most / 8);
        let doubled = std::iter::successors(Some(least), |steps| steps.checked_mul(2));
        let mut found: Option<(u32, Candidate)> = None;
        for steps in doubled.take_while(|steps| *steps < most).chain([most]) {
            let Some(tried) = self.with_ashore(steps, far) else { continue };
            if found.as_ref().is_none_or(|(_, best)| tried.cost.fails < best.cost.fails) {
                found = Some((steps, tried));
            }
            if found.as_ref().is_some_and(|(_, best)| best.cost.fails == 0) {
                break;
            }
        }
        let helps = |fails: usize| fails < known.cost.fails && fails <= self.most_fails;
        let Some((mut enough, mut best)) = found.filter(|(_, best)| helps(best.cost.fails)) else {
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

    /// The steps of weight ashore that come to what a weight is past a limit, where no part cures that; at least one.
    fn least_ashore(&mut self, values: &Values) -> u32 {
        let Some(stands) = self.trial.stands(values) else { return 1 };
        let is_shed = |stand: &&Stand| {
            let limit = &self.trial.limits[stand.limit];
            let row = &self.trial.rows[limit.row];
            let stays = !(self.buys && self.trial.is_bought(limit));
            self.fails(stand) && stays && row.is_weight && row.remedies.contains(&Remedy::Shed)
        };
        let over = stands.iter().filter(is_shed).map(|stand| -stand.margin).filter(|over| over.is_finite());
        whole((over.fold(0.0, f64::max) / self.ashore(1)).ceil()).max(1)
    }

    fn with_ashore(&mut self, steps: u32, far: bool) -> Option<Candidate> {
        let now = self.setup.shift.ashore.map_or(0.0, Quantity::si);
        let ashore = now + self.ashore(steps);
        let mut values = self.base.clone();
        values.insert(Knob::Ashore, ashore);
        let mut placed = self.placed(&values, far)?;
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
        let mut best = Some(self.stay(fixed));
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
                best = best.into_iter().chain([self.stay(&with_level)]).reduce(cheaper);
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

    /// The tires at the pressure that their sidewalls say, where some stand at another and that may help. Where nothing says it they
    /// are pumped up by what they surely hold, and none is let down.
    fn inflated(&mut self, _: &Solution) -> Option<Values> {
        let setup = self.setup;
        let axles = 0..setup.trailer.axles.len();
        let allowed: Vec<(Pressure, bool)> =
            axles.clone().map(|axle| pumped_up(setup, axle)).collect::<Option<_>>()?;
        let most = allowed.iter().map(|(most, _)| *most).reduce(Pressure::min)?;
        let is_known = allowed.iter().all(|(_, is_on_sidewall)| *is_on_sidewall);
        let is_plausible = allowed.iter().all(|(most, _)| is_plausible_on_a_sidewall(*most));
        let pressures = || setup.trailer.axles.iter().filter_map(|axle| axle.tires.pressure);
        if !is_plausible || (!is_known && pressures().any(|pressure| pressure > most)) {
            return None;
        }
        let is_off = axles.into_iter().any(|axle| inflates(setup, axle, most).is_some());
        let helps = self.moves && is_off && self.any_cure(&Values::new(), |remedy| remedy == Remedy::Inflate);
        helps.then(|| Values::from([(Knob::Pressure, most.si())]))
    }

    /// The winch's strap cut to the longest of whole feet, or quarters of a metre, with which as few rows fail as with the shortest
    /// that reaches a boat afloat.
    fn shortened(&mut self, found: &Solution) -> Option<Values> {
        let now = self.setup.trailer.winch.strap.length?.si();
        let least = shortest_strap(self.setup).ok()?.si();
        if !self.moves || !self.any_cure(&found.values, |remedy| remedy == Remedy::Shorten) {
            return None;
        }
        let grain = match self.units {
            UnitSystem::Us => 12.0 * INCH,
            UnitSystem::Metric => 0.25,
        };
        let cut = |steps: u32| Values::from([(Knob::Strap, f64::from(steps) * grain)]);
        let (mut enough, mut long) = (whole((least / grain).ceil()), whole((now / grain).ceil()));
        if enough >= long {
            return None;
        }
        let best = self.certainty(&with(&found.values, &cut(enough)));
        while long - enough > 1 {
            let middle = u32::midpoint(enough, long);
            if self.certainty(&with(&found.values, &cut(middle))) <= best {
                enough = middle;
            } else {
                long = middle;
            }
        }
        Some(cut(enough))
    }

    /// A master cylinder of the bore after which fewest rows fail, then fewest are in doubt, the nearest of those: a larger one brakes
    /// less, a smaller one needs more stroke.
    fn rebored(&mut self, found: &Solution) -> Option<Values> {
        let now = self.setup.trailer.brakes.bore?.si();
        if !self.buys || !self.any_cure(&found.values, |remedy| remedy == Remedy::Bore) {
            return None;
        }
        let knob = Knob::Figure(sold::place(TRAILER_BRAKES_BORE.path())?);
        let bores = sold::other_bores(now).into_iter().map(|bore| Values::from([(knob, bore)]));
        bores.min_by_key(|bore| self.certainty(&with(&found.values, bore)))
    }

    /// Nothing more moved.
    fn stay(&mut self, fixed: &Values) -> Candidate {
        let look = self.trial.look(0.0, fixed);
        let tally = self.tally(|limit| look.margins.get(limit).is_some_and(|margin| *margin < 0.0));
        Candidate { values: fixed.clone(), cost: self.cost(fixed, &tally), window: None }
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
            wood: 0,
            parts: tally.items.len(),
            moves: values.keys().filter(|knob| knob.is_moved()).count(),
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
        let window = (aim == Aim::Middle).then_some((mover.knob, spot.window));
        Some(if spot.at == mover.now {
            self.stay(fixed)
        } else {
            Candidate { window, ..self.stay(&at(spot.at)) }
        })
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
        let choose = |aim: Aim, stretches: &[Stretch]| -> Option<(f64, Stretch)> {
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
        let (mut at, mut inside) = choose(aim, &among(&calm))?;
        if !holds(at, &sure) {
            (at, inside) = choose(aim, &among(&sure))?;
        }
        // Where it can only be had with a tongue that is out of its band, it goes no farther than it must.
        let mut there = cells.iter().filter(|cell| cell.from <= at && at <= cell.to);
        if there.all(|cell| self.is_tongue_off(cell)) {
            (at, inside) = choose(Aim::Least, &windows)?;
        }
        let window = windows.into_iter().find(|(from, to)| *from <= at && at <= *to).unwrap_or(inside);
        Some(Spot { at, inside, window })
    }

    /// Whether the tongue share is outside its band.
    fn is_tongue_off(&self, cell: &Cell) -> bool {
        let limits = self.trial.limits.iter().enumerate();
        let mut of_share = limits.filter(|(_, limit)| Some(limit.row) == self.trial.share);
        of_share.any(|(place, _)| is_outside(cell, 2 * place))
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
        self.along(&values, inner, far).filter(|found| found.values.contains_key(&inner.knob))
    }

    /// What is past its limits, of limits twice over: as stated and at the worst of the ±.
    fn tally(&self, outside: impl Fn(usize) -> bool) -> Tally {
        /// What a row is past; of what advises or is in doubt, whether a part would cure all of it.
        #[derive(Clone, Copy, Default)]
        struct Past {
            fails: bool,
            advises: Option<bool>,
            unsure: Option<bool>,
        }
        let mut rows = vec![Past::default(); self.trial.rows.len()];
        let mut items = BTreeSet::new();
        for (place, limit) in self.trial.limits.iter().enumerate() {
            let (past, doubtful) = (outside(2 * place), outside(2 * place + 1));
            if !past && !doubtful {
                continue;
            }
            let bought = self.buys && self.trial.is_bought(limit);
            let row = &mut rows[limit.row];
            match (past, limit.fails) {
                (true, true) if bought => items.extend(self.trial.items(limit.row)),
                (true, true) => row.fails = true,
                (false, true) => *row.unsure.get_or_insert(true) &= bought,
                (_, false) => *row.advises.get_or_insert(true) &= bought,
            }
        }
        let mut tally = Tally::default();
        for (place, row) in rows.iter().enumerate() {
            // A part that is bought is bought large enough to leave no doubt.
            let stays = |bought: bool| !bought || !self.trial.items(place).all(|item| items.contains(&item));
            if row.fails {
                tally.fails += 1;
            } else if row.advises.is_some_and(stays) {
                tally.advises += 1;
            } else if row.unsure.is_some_and(stays) {
                tally.unsure += 1;
            }
        }
        Tally { items, ..tally }
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
        self.size(&mut parts, Self::fails);
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

    /// How many rows fail as stated, how many at the worst of the ±, and how many are in doubt, with these values as they are.
    fn certainty(&mut self, values: &Values) -> (usize, usize, usize) {
        let look = self.trial.look(0.0, values);
        let limits = self.trial.limits.iter().enumerate();
        let past = |place: usize| look.margins.get(2 * place + 1).is_some_and(|margin| *margin < 0.0);
        let may_fail =
            limits.filter(|(place, limit)| limit.fails && past(*place)).map(|(_, limit)| limit.row);
        let may_fail = may_fail.collect::<BTreeSet<usize>>().len();
        let (fails, doubts) = self.doubts(values);
        (fails, may_fail, doubts)
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
        for (place, need) in &self.with_wheels(sure) {
            let by_index = self.sold_by_index(*place, *need);
            let mut bought = by_index.unwrap_or_else(|| SOLD[*place].step_up(*need, self.units));
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

    /// A solution with more weight left ashore: the least with which as few rows may fail, at the worst of the ±, as with the most;
    /// `None` where it leaves none, or more helps nothing.
    pub fn more_ashore(&mut self, solution: &Solution) -> Option<Solution> {
        let now = self.setup.shift.ashore.map_or(0.0, Quantity::si);
        let step = self.ashore(1);
        let mut short = whole(((solution.values.get(&Knob::Ashore)? - now) / step).round());
        let mut enough = whole(self.most_ashore / step);
        let values = |search: &Self, steps: u32| {
            with(&solution.values, &Values::from([(Knob::Ashore, now + search.ashore(steps))]))
        };
        self.on_design(&solution.design, |search| {
            let certainty = |search: &mut Self, steps: u32| {
                let (fails, may_fail, _) = search.certainty(&values(search, steps));
                (fails, may_fail)
            };
            let best = certainty(search, enough);
            if best >= certainty(search, short) {
                return None;
            }
            while enough - short > 1 {
                let middle = u32::midpoint(short, enough);
                if certainty(search, middle) <= best { enough = middle } else { short = middle }
            }
            Some(Solution { values: values(search, enough), ..solution.clone() })
        })?
    }

    /// A solution with parts that are sized by what fails alone; `None` where these are what it has.
    pub fn least_parts(&mut self, solution: &Solution) -> Option<Solution> {
        let mut values = solution.values.clone();
        values.retain(|knob, _| !matches!(knob, Knob::Figure(_)));
        let parts = self.on_design(&solution.design, |search| {
            let mut parts = Parts { values, needed: BTreeMap::new() };
            search.size(&mut parts, Self::fails);
            parts
        })?;
        let Parts { values, needed } = parts;
        (values != solution.values).then(|| Solution { values, needed, ..solution.clone() })
    }

    /// A solution with the next larger of the parts that are bought for these checks; `None` where none is.
    pub fn larger(&self, solution: &Solution, checks: &[String]) -> Option<Solution> {
        /// More than a rating by less than any step.
        const HAIR: f64 = 1e-3;
        let rows = self.trial.rows.iter().filter(|row| checks.contains(&row.id));
        let bought = |place: &usize| solution.values.get(&Knob::Figure(*place)).map(|has| has * (1.0 + HAIR));
        let more =
            rows.flat_map(|row| &row.figures).filter_map(|place| Some((*place, bought(place)?))).collect();
        let mut parts = Parts { values: solution.values.clone(), needed: solution.needed.clone() };
        self.buy(&mut parts, &more).then(|| Solution { values: parts.values, ..solution.clone() })
    }

    /// The same with wheels that are good for what tires are bought for, where the rig states that theirs are not: no check compares a
    /// wheel with what its tire carries while the rear axle hangs.
    fn with_wheels(&self, sure: &BTreeMap<usize, f64>) -> BTreeMap<usize, f64> {
        let mut sure = sure.clone();
        let [tires, wheels] = [TRAILER_AXLES_TIRES_RATING, TRAILER_AXLES_WHEELS_RATING]
            .map(|rating| sold::place(rating.path()));
        if let (Some(tires), Some(wheels)) = (tires, wheels)
            && let Some(tire) = sure.get(&tires).copied()
            && self.stated(wheels).iter().any(|stated| *stated < tire)
        {
            let known = sure.entry(wheels).or_insert(tire);
            *known = known.max(tire);
        }
        sure
    }

    /// What the rig states of a figure, wherever it does.
    fn stated(&self, place: usize) -> Vec<f64> {
        self.keys(place).iter().filter_map(|key| figure(self.setup, place, key.at[0])).collect()
    }

    /// What tires are sold that carry this, where the rig has load indices: the load of one, so that a rating says the same.
    fn sold_by_index(&self, place: usize, needed: f64) -> Option<f64> {
        let indexed = self.setup.trailer.axles.iter().any(|axle| axle.tires.load_index.is_some());
        let is_tire = SOLD[place].path == TRAILER_AXLES_TIRES_RATING.path();
        let index = index_for(Weight::from_si(needed)).filter(|_| indexed && is_tire)?;
        load_of_index(index).map(Quantity::si)
    }

    fn is_stated_everywhere(&self, place: usize) -> bool {
        self.stated(place).len() == self.keys(place).len()
    }

    /// The keys of a figure.
    pub fn keys(&self, place: usize) -> Vec<Key> {
        let keys = self.trial.keys(Knob::Figure(place), 0.0).map(|(key, _)| key);
        keys.filter(|key| key.path == SOLD[place].path).collect()
    }

    /// The best set of changes with its parts and its wood, nothing in it that does not help.
    pub fn solve(&mut self) -> Option<Solution> {
        self.solve_within(usize::MAX)
    }

    /// The same where no more rows than this fail after it; `None` as soon as that cannot be.
    pub fn solve_within(&mut self, most: usize) -> Option<Solution> {
        self.most_fails = most;
        let found = self.searched()?;
        if self.count_of(&found) > most {
            return None;
        }
        if !self.trial.has_ramps() || self.trial.with_ramps {
            return Some(found);
        }
        // A crossing costs a thousand times as much as the level: ramps are crossed where something fails there.
        self.trial.cross_ramps();
        if !self.any_over_ramps(&found) {
            return Some(found);
        }
        let found = self.searched()?;
        (self.count_of(&found) <= most).then_some(found)
    }

    fn any_over_ramps(&mut self, found: &Solution) -> bool {
        let over_ramps = |search: &mut Self| {
            let failing = search.failing(&found.values);
            failing.iter().any(|row| search.trial.is_over_ramps(*row))
        };
        self.on_design(&found.design, over_ramps).unwrap_or(true)
    }

    /// The best set of changes by the rows that are looked at: first without weight ashore or a move beyond its travel,
    /// which cost more than wood.
    fn searched(&mut self) -> Option<Solution> {
        (self.base, self.spares) = (Values::new(), true);
        let mut found = self.attempt()?;
        let mut start = Values::new();
        for changed in [Self::inflated, Self::shortened, Self::rebored] {
            let Some(changed) = changed(self, &found) else { continue };
            self.base = with(&start, &changed);
            found = self.cheaper_of(found, &Design::default());
            if changed.keys().all(|knob| found.values.contains_key(knob)) {
                start.clone_from(&self.base);
            }
        }
        if self.price(&found).fails == 0 {
            return Some(found);
        }
        let wood = self.wood(&found);
        if let Some((design, values)) = &wood {
            self.base = with(&start, values);
            found = self.cheaper_of(found, design);
        }
        if self.price(&found).fails > 0 {
            self.spares = false;
            for (design, values) in std::iter::once((Design::default(), Values::new())).chain(wood) {
                self.base = with(&start, &values);
                found = self.cheaper_of(found, &design);
            }
        }
        // Beyond its travel the boat may ask for other wood.
        if self.price(&found).fails > 0
            && let Some(beyond) = self.beyond(&start)
            && let Some((design, values)) = self.wood(&beyond)
        {
            self.base = with(&start, &values);
            found = self.cheaper_of(found, &design);
        }
        Some(found)
    }

    /// The best place beyond a stated travel, whatever wood is there.
    fn beyond(&mut self, base: &Values) -> Option<Solution> {
        if !self.moves || self.movers.iter().all(|mover| mover.far.is_none()) {
            return None;
        }
        let best = self.placed(base, true).filter(|best| best.cost.beyond > 0)?;
        let (values, needed) = self.with_parts(&best.values);
        Some(Solution {
            values,
            needed,
            design: self.design.clone(),
            window: best.window,
            cures: BTreeMap::new(),
        })
    }

    /// A solution, or what is found on a design where that costs less.
    fn cheaper_of(&mut self, known: Solution, design: &Design) -> Solution {
        let Some(other) = self.on_design(design, Self::attempt).flatten() else { return known };
        if self.price(&other) < self.price(&known) { other } else { known }
    }

    /// Does something with the rig of a design on trial; `None` where there is no such rig.
    fn on_design<T>(&mut self, design: &Design, work: impl FnOnce(&mut Self) -> T) -> Option<T> {
        if self.design == *design {
            return Some(work(self));
        }
        let on = self.trial_of(design)?;
        let trial = std::mem::replace(&mut self.trial, on);
        let before = std::mem::replace(&mut self.design, design.clone());
        let done = work(self);
        (self.trial, self.design) = (trial, before);
        Some(done)
    }

    fn trial_of(&mut self, design: &Design) -> Option<Trial> {
        if *design != Design::default() && self.built.iter().all(|(known, _)| known != design) {
            self.built.push((design.clone(), design.of(self.rig)?));
        }
        self.trial.on(self.rig_of(design)).ok()
    }

    /// The rig of a design that was looked at.
    pub fn rig_of(&self, design: &Design) -> &Rig {
        self.built.iter().find(|(known, _)| known == design).map_or(self.rig, |(_, rig)| rig)
    }

    /// The wood after which fewest rows fail at the place of a solution, of that the least, and of that what leaves fewest rows in
    /// doubt, if any helps: a design, and the bunks' ends and spacers.
    fn wood(&mut self, found: &Solution) -> Option<(Design, Values)> {
        if !self.setup.trailer.bunks.are_described() || !self.any_cure(&found.values, is_wood) {
            return None;
        }
        let with_ramps = std::mem::replace(&mut self.trial.with_ramps, false);
        let failing = self.failing(&found.values);
        let now = failing.len();
        let is_cured = |row: &&usize| self.trial.rows[**row].remedies.iter().copied().any(is_wood);
        let least = now - failing.iter().filter(is_cured).count();
        let mut best = ((now, 0, 0), Design::default(), Values::new());
        let boat = found.values.get(&Knob::Boat).copied();
        let boat = boat.unwrap_or_else(|| self.setup.shift.boat.map_or(0.0, Quantity::si));
        let ends = std::iter::once(Values::new()).chain(wood::ends(self.setup, boat, self.units));
        let ends: Vec<Values> = ends.collect();
        // Spacers cost no new bunks.
        let raises = self.any_cure(&found.values, |remedy| remedy == Remedy::Raise);
        for by in wood::spacers(self.units).filter(|_| raises) {
            let raised = Values::from([(Knob::Raise, by)]);
            let (fails, doubts) = self.doubts(&with(&found.values, &raised));
            if (fails, 1, doubts) < best.0 && fails < now {
                best = ((fails, 1, doubts), Design::default(), raised);
            }
        }
        for design in std::iter::once(Design::default()).chain(wood::designs(self.rig)) {
            if best.0.0 <= least && design.changes() > best.0.1 {
                break;
            }
            let doubts = self.on_design(&design, |search| {
                let doubts = |ends: &Values| search.doubts(&with(&found.values, ends));
                ends.iter().map(doubts).collect::<Vec<_>>()
            });
            for ((fails, doubts), ends) in doubts.into_iter().flatten().zip(&ends) {
                let changes = design.changes() + usize::from(!ends.is_empty());
                if (fails, changes, doubts) < best.0 {
                    best = ((fails, changes, doubts), design.clone(), ends.clone());
                }
            }
        }
        let ((mut fails, ..), design, mut values) = best;
        if raises {
            let wood = values.clone();
            self.on_design(&design, |search| {
                for by in wood::spacers(search.units) {
                    let mut raised = wood.clone();
                    raised.insert(Knob::Raise, by);
                    let then = search.failing(&with(&found.values, &raised)).len();
                    if then < fails {
                        (fails, values) = (then, raised);
                    }
                }
            });
        }
        self.trial.with_ramps = with_ramps;
        (fails < now).then_some((design, values))
    }

    /// The best set of changes on the wood that is chosen.
    fn attempt(&mut self) -> Option<Solution> {
        let first = self.sized()?;
        let is_axle = |knob: &Knob| Group::of(*knob) == Group::Item(Item::Axles);
        let axles: Values =
            first.values.iter().filter(|(knob, _)| is_axle(knob)).map(|(k, v)| (*k, *v)).collect();
        if axles.is_empty() {
            return Some(self.pruned(first));
        }
        // On other springs another place may be better.
        let wood = self.base.clone();
        self.base.extend(axles);
        let second = self.sized();
        self.base = wood;
        let found = self.pruned(first);
        let Some(second) = second else { return Some(found) };
        let second = self.pruned(second);
        Some(if self.price(&second) < self.price(&found) { second } else { found })
    }

    /// The best place, and the parts that it asks for.
    fn sized(&mut self) -> Option<Solution> {
        let best = self.best()?;
        let (values, needed) = self.with_parts(&best.values);
        let (design, window) = (self.design.clone(), best.window);
        Some(Solution { values, needed, design, window, cures: BTreeMap::new() })
    }

    /// What keeps a row that still fails from holding: of the rows that would fail where it holds, along the boat's way, the
    /// one whose places lie farthest from its own, and how far that is in metres.
    pub fn conflict(&mut self, solution: &Solution, id: &str) -> Option<(String, f64)> {
        let boat = self.movers.iter().find(|mover| mover.knob == Knob::Boat).copied()?;
        let row = self.trial.rows.iter().position(|row| row.id == id)?;
        let here = solution.values.get(&Knob::Boat).copied().unwrap_or(boat.now);
        let (from, to) = boat.far.unwrap_or(boat.reach);
        let looks: Vec<Look> = self.on_design(&solution.design, |search| {
            let look = |part: u8| {
                let place = from + (to - from) * f64::from(part) / f64::from(CONFLICT_PARTS);
                let mut values = solution.values.clone();
                values.insert(Knob::Boat, place);
                search.trial.look(place, &values)
            };
            (0..=CONFLICT_PARTS).map(look).collect()
        })?;
        let cells = cells(&looks);
        let holds = |row: usize| {
            let fails = |cell: &Cell| {
                let limits = self.trial.limits.iter().enumerate();
                limits
                    .filter(|(_, limit)| limit.row == row && limit.fails)
                    .any(|(i, _)| is_outside(cell, 2 * i))
            };
            stretches(cells.iter().map(|cell| (cell, !fails(cell))))
        };
        let off = |(from, to): &Stretch| (here.clamp(*from, *to) - here).abs();
        let own = holds(row).into_iter().min_by(|a, b| off(a).total_cmp(&off(b)))?;
        let apart = |other: usize| {
            let around = holds(other).into_iter().find(|(from, to)| *from <= here && here <= *to)?;
            Some((own.0 - around.1).max(around.0 - own.1)).filter(|gap| *gap > 0.0)
        };
        let others = (0..self.trial.rows.len()).filter(|other| *other != row);
        let others = others.filter_map(|other| Some((self.trial.rows[other].id.clone(), apart(other)?)));
        others.max_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// How many rows fail with a set of changes as it is, every value as stated.
    pub fn count_of(&mut self, solution: &Solution) -> usize {
        let count = self.on_design(&solution.design, |search| search.failing(&solution.values).len());
        count.unwrap_or(self.trial.rows.len())
    }

    /// What a set of changes costs as it is.
    fn price(&mut self, solution: &Solution) -> Cost {
        let fails = self.count_of(solution);
        let ashore = solution.values.get(&Knob::Ashore).map_or(0.0, |ashore| ashore / self.ashore(1));
        let groups = solution.groups();
        Cost {
            fails,
            ashore: whole(ashore.round()),
            wood: groups.iter().filter(|group| group.is_wood()).count(),
            parts: groups.iter().filter(|group| matches!(group, Group::Item(_))).count(),
            ..self.cost(&solution.values, &Tally::default())
        }
    }

    fn pruned(&mut self, mut solution: Solution) -> Solution {
        self.prune(&mut solution);
        solution
    }

    /// Drops what leaves no more rows failing without it, wood and parts first, until nothing more can be, and notes what the rest
    /// cures.
    fn prune(&mut self, solution: &mut Solution) {
        let mut left = self.failing(&solution.values);
        loop {
            solution.cures.clear();
            let mut dropped = self.prune_design(solution, &mut left);
            for group in solution.groups().into_iter().rev().filter(|group| !group.is_designed()) {
                let without = solution.without(group);
                let failing = self.failing(&without);
                if failing.len() > left.len() {
                    solution.cures.insert(group, self.cured(&failing, &left));
                } else {
                    (solution.values, left, dropped) = (without, failing, true);
                }
            }
            if !dropped {
                return;
            }
        }
    }

    /// The same for what the design changes. What is on trial from then on is the design that is left.
    fn prune_design(&mut self, solution: &mut Solution, left: &mut BTreeSet<usize>) -> bool {
        for (group, lesser) in solution.design.lesser() {
            let Some(failing) = self.on_design(&lesser, |search| search.failing(&solution.values)) else {
                continue;
            };
            if failing.len() > left.len() {
                solution.cures.insert(group, self.cured(&failing, left));
            } else if let Some(trial) = self.trial_of(&lesser) {
                (self.trial, self.design) = (trial, lesser.clone());
                (solution.design, *left) = (lesser, failing);
                return true;
            }
        }
        false
    }

    /// The ids of the rows that fail no more.
    fn cured(&self, before: &BTreeSet<usize>, after: &BTreeSet<usize>) -> Vec<String> {
        before.difference(after).map(|row| self.trial.rows[*row].id.clone()).collect()
    }
}

/// Whether what cures a row is made of wood, or a crossmember.
fn is_wood(remedy: Remedy) -> bool {
    matches!(remedy, Remedy::Ends | Remedy::Board | Remedy::Crossmember | Remedy::Raise)
}

/// One thing to do: something moved, weight left ashore, or a part bought.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Group {
    Set(Knob),
    Item(Item),
    Board,
    /// One of the crossmembers that the design adds, by its place among these.
    Crossmember(usize),
    Ends,
    Raise,
}

impl Group {
    pub fn of(knob: Knob) -> Self {
        match knob {
            Knob::Figure(place) => Self::Item(SOLD[place].item),
            Knob::AftEnd | Knob::ForwardEnd => Self::Ends,
            Knob::Raise => Self::Raise,
            other => Self::Set(other),
        }
    }

    /// Whether it counts as wood.
    fn is_wood(self) -> bool {
        self.is_designed() || matches!(self, Self::Ends | Self::Raise)
    }

    /// Whether a rig is built otherwise for it, so that no value says it.
    fn is_designed(self) -> bool {
        matches!(self, Self::Board | Self::Crossmember(_))
    }
}

impl Design {
    /// What it changes.
    fn groups(&self) -> impl Iterator<Item = Group> {
        let board = self.board.map(|_| Group::Board);
        board.into_iter().chain((0..self.added.len()).map(Group::Crossmember))
    }

    /// The designs that leave out one of its changes, each with what that is.
    fn lesser(&self) -> Vec<(Group, Self)> {
        let without = |group: Group| {
            let mut lesser = self.clone();
            match group {
                Group::Crossmember(place) => drop(lesser.added.remove(place)),
                _ => lesser.board = None,
            }
            (group, lesser)
        };
        self.groups().map(without).collect()
    }
}

/// A set of changes that nothing can be left out of.
#[derive(Debug, Clone)]
pub(super) struct Solution {
    pub values: Values,
    /// What each figure must be at least.
    pub needed: BTreeMap<usize, f64>,
    /// What the rig is built with.
    pub design: Design,
    pub window: Option<(Knob, Stretch)>,
    /// The ids of the rows that fail without each thing to do.
    pub cures: BTreeMap<Group, Vec<String>>,
}

impl Solution {
    /// What there is to do, in order.
    pub fn groups(&self) -> BTreeSet<Group> {
        self.values.keys().map(|knob| Group::of(*knob)).chain(self.design.groups()).collect()
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

/// Values and others beside them.
fn with(values: &Values, others: &Values) -> Values {
    values.iter().chain(others).map(|(knob, value)| (*knob, *value)).collect()
}

/// A number of steps that is whole, or what is whole of it.
fn whole(steps: f64) -> u32 {
    u32::try_from(steps as i64).unwrap_or(0)
}

fn is_outside(cell: &Cell, limit: usize) -> bool {
    cell.outside.get(limit).copied().unwrap_or(false)
}

/// The one that costs less, the first of equals.
fn cheaper(one: Candidate, other: Candidate) -> Candidate {
    if other.cost < one.cost { other } else { one }
}
