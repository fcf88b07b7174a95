//! What must hold between the values of a rig file.

use super::defaults;
use super::input::Key;
use super::problem::{Fault, Problem};
use super::read::Draft;
use super::setup::{Case, MAX_AXLES, Setup, SuspensionKind, nominal_size};
use super::source::Span;
use crate::quantity::show::{UnitSystem, written};
use crate::quantity::{Length, Quantity, STANDARD_GRAVITY, Share, Uncertain, Weight};

/// A bottom this steep carries no boat on bunks, in radians: 60 degrees.
const STEEPEST_BOTTOM: f64 = std::f64::consts::FRAC_PI_3;
/// Crossmembers nearer to each other than this are one, in metres.
const APART: f64 = 1e-3;

/// Every rule that the draft breaks.
pub(super) fn validate(draft: &Draft) -> Vec<Problem> {
    let mut rules = Rules { draft, setup: &draft.setup, found: Vec::new() };
    rules.format();
    rules.ids();
    rules.low_points();
    rules.quantities();
    rules.found
}

/// Every rule about quantities that a setup made from the draft breaks: what is left to break where words stand as
/// they stood.
pub(super) fn validate_quantities(draft: &Draft, setup: &Setup) -> Vec<Problem> {
    let mut rules = Rules { draft, setup, found: Vec::new() };
    rules.quantities();
    rules.found
}

struct Rules<'a> {
    draft: &'a Draft,
    setup: &'a Setup,
    found: Vec<Problem>,
}

impl Rules<'_> {
    fn quantities(&mut self) {
        self.axles();
        self.contradictions();
        self.trailer_weights();
        self.measured();
        self.sides();
        self.policy();
        self.travel();
        self.shift();
        self.ashore();
        self.ramps();
        self.hull();
        self.bunks();
    }

    fn place(&self, key: Key) -> Option<Span> {
        self.draft.place(key)
    }

    fn blame(&mut self, fault: Fault, key: Key) {
        let at = self.place(key);
        self.found.push(Problem { fault, at, other: None });
    }

    fn blame_both(&mut self, fault: Fault, key: Key, other: Key) {
        let (at, other) = (self.place(key), self.place(other));
        self.found.push(Problem { fault, at, other });
    }

    fn system(&self) -> UnitSystem {
        self.setup.units.map_or(UnitSystem::Us, UnitSystem::from)
    }

    fn show<Q: Quantity>(&self, quantity: Q) -> String {
        let si = Uncertain { value: quantity.si(), bound: 0.0 };
        written(si, Q::KIND, self.system())
    }

    fn format(&mut self) {
        let key = Key::new("format");
        match self.setup.format {
            Some(1) => {}
            Some(other) => self.blame(Fault::OtherFormat(other), key),
            None if self.draft.seen.contains(&key) => {}
            None => self.blame(Fault::NoFormat, key),
        }
    }

    fn axles(&mut self) {
        let axles = &self.setup.trailer.axles;
        let key = Key::new("trailer.axles");
        if axles.is_empty() && !self.draft.seen.contains(&key) {
            self.blame(Fault::NoAxles, key);
        }
        if axles.len() > MAX_AXLES {
            let key = Key::of("trailer.axles.*.station", MAX_AXLES);
            self.blame(Fault::TooManyAxles(axles.len()), key);
        }
        for i in 1..axles.len() {
            if let (Some(ahead), Some(behind)) = (axles[i - 1].station, axles[i].station)
                && behind <= ahead
            {
                let key = |i| Key::of("trailer.axles.*.station", i);
                self.blame_both(Fault::AxleOrder(i + 1), key(i), key(i - 1));
            }
        }
        for (i, axle) in axles.iter().enumerate() {
            if let Some(count) = axle.tires.count.filter(|count| !matches!(count, 2 | 4)) {
                self.blame(Fault::TireCount(count), Key::of("trailer.axles.*.tires.count", i));
            }
        }
        let front = axles.first().and_then(|axle| axle.station);
        if let (Some(jack), Some(front)) = (self.setup.trailer.jack.station, front)
            && jack >= front
        {
            let front = Key::of("trailer.axles.*.station", 0);
            self.blame_both(Fault::JackBehindAxle, Key::new("trailer.jack.station"), front);
        }
    }

    fn contradictions(&mut self) {
        let trailer = &self.setup.trailer;
        let bunks = &trailer.bunks;
        let pairs = [
            (trailer.bow_stop.is_some() && trailer.transom.is_some(), "trailer.bow_stop", "trailer.transom"),
            (trailer.cg.is_some() && trailer.tongue_weight.is_some(), "trailer.cg", "trailer.tongue_weight"),
            (trailer.weight.is_some() && trailer.capacity.is_some(), "trailer.weight", "trailer.capacity"),
            (
                bunks.half_spacing.is_some() && bunks.port.is_some(),
                "trailer.bunks.half_spacing",
                "trailer.bunks.port",
            ),
            (
                bunks.half_spacing.is_some() && bunks.starboard.is_some(),
                "trailer.bunks.half_spacing",
                "trailer.bunks.starboard",
            ),
            (bunks.board.is_some() && bunks.width.is_some(), "trailer.bunks.board", "trailer.bunks.width"),
            (bunks.board.is_some() && bunks.depth.is_some(), "trailer.bunks.board", "trailer.bunks.depth"),
            (bunks.wood.is_some() && bunks.bending.is_some(), "trailer.bunks.wood", "trailer.bunks.bending"),
            (bunks.wood.is_some() && bunks.shear.is_some(), "trailer.bunks.wood", "trailer.bunks.shear"),
            (bunks.wood.is_some() && bunks.modulus.is_some(), "trailer.bunks.wood", "trailer.bunks.modulus"),
        ];
        for (both, first, second) in pairs {
            if both {
                self.contradiction(Key::new(first), Key::new(second));
            }
        }
        for (i, tank) in self.setup.boat.tanks.iter().enumerate() {
            if tank.fluid.is_some() && tank.density.is_some() {
                self.contradiction(Key::of("boat.tanks.*.fluid", i), Key::of("boat.tanks.*.density", i));
            }
        }
    }

    /// The mistake stands at the later of the two.
    fn contradiction(&mut self, a: Key, b: Key) {
        let start = |key: Key| self.place(key).map(|span| (span.source, span.range.start));
        let (first, second) = if start(a) <= start(b) { (a, b) } else { (b, a) };
        self.blame_both(Fault::Contradiction { first, second }, second, first);
    }

    fn ids(&mut self) {
        let boat = &self.setup.boat;
        let weights = boat.weights.iter().enumerate().map(|(i, w)| (Key::of("boat.weights.*.id", i), &w.id));
        let tanks = boat.tanks.iter().enumerate().map(|(i, t)| (Key::of("boat.tanks.*.id", i), &t.id));
        let ids: Vec<_> = weights.chain(tanks).filter_map(|(key, id)| Some((key, id.as_ref()?))).collect();
        for (n, (key, id)) in ids.iter().enumerate() {
            if let Some((first, _)) = ids[..n].iter().find(|(_, earlier)| earlier == id) {
                self.blame_both(Fault::DuplicateId((*id).clone()), *key, *first);
            }
        }
    }

    fn trailer_weights(&mut self) {
        let trailer = &self.setup.trailer;
        if let (Some(capacity), Some(gvwr)) = (trailer.capacity, trailer.gvwr)
            && capacity >= gvwr
        {
            let fault = Fault::CapacityNotBelowGvwr { capacity: self.show(capacity), gvwr: self.show(gvwr) };
            self.blame_both(fault, Key::new("trailer.capacity"), Key::new("trailer.gvwr"));
        }
        let axles: Weight = trailer.axles.iter().filter_map(|axle| axle.weight).sum();
        if let Some(weight) = self.setup.trailer_weight().filter(|weight| axles > *weight) {
            let fault = Fault::AxlesOutweighTrailer {
                axles: self.system().weight(axles),
                weight: self.system().weight(weight),
            };
            let last = trailer.axles.iter().rposition(|axle| axle.weight.is_some()).unwrap_or(0);
            self.blame(fault, Key::of("trailer.axles.*.weight", last));
        }
        self.tongue_below(trailer.tongue_weight, self.setup.trailer_weight(), "trailer.tongue_weight");
    }

    fn tongue_below(&mut self, tongue: Option<Weight>, whole: Option<Weight>, key: &'static str) {
        if let (Some(tongue), Some(whole)) = (tongue, whole)
            && tongue >= whole
        {
            let fault = Fault::TongueNotBelowWeight { found: self.show(tongue), whole: self.show(whole) };
            self.blame(fault, Key::new(key));
        }
    }

    fn measured(&mut self) {
        let measured = self.setup.measured;
        let gross = measured.gross_trailer_weight;
        self.tongue_below(measured.tongue_weight, gross, "measured.tongue_weight");
        if let (true, Some(gross), Some(trailer)) =
            (self.setup.known_from_scales(), gross, self.setup.trailer_weight())
        {
            let parts = trailer + self.tanks_at_first_case();
            if parts >= gross {
                let fault =
                    Fault::NothingLeftForBoat { found: self.show(gross), parts: self.system().weight(parts) };
                self.blame(fault, Key::new("measured.gross_trailer_weight"));
            }
        }
    }

    /// What the tanks hold when the rig was weighed, as far as known.
    fn tanks_at_first_case(&self) -> Weight {
        self.tanks_in(self.setup.cases.first())
    }

    /// What the tanks hold in a case, as far as known.
    fn tanks_in(&self, first: Option<&Case>) -> Weight {
        let tanks = self.setup.boat.tanks.iter().enumerate();
        let weights = tanks.filter_map(|(i, tank)| {
            let aboard = first.is_none_or(|case| case.carries(super::Part::Tank(i)));
            let density = tank.density.or_else(|| tank.fluid.map(|fluid| defaults::density(fluid).0))?;
            let fill = first.and_then(|case| case.fill.get(i).copied().flatten()).or(tank.fill)?;
            let mass = tank.capacity?.si() * fill.si() * density.si();
            aboard.then(|| Weight::from_si(mass * STANDARD_GRAVITY))
        });
        weights.sum()
    }

    fn sides(&mut self) {
        let Some(beam) = self.setup.boat.beam else { return };
        let half = beam / 2.0;
        let boat = &self.setup.boat;
        let weights =
            boat.weights.iter().enumerate().map(|(i, w)| (Key::of("boat.weights.*.side", i), w.side));
        let tanks = boat.tanks.iter().enumerate().map(|(i, t)| (Key::of("boat.tanks.*.side", i), t.side));
        let bunks = &self.setup.trailer.bunks;
        let others = [
            (Key::new("boat.cg_side"), boat.cg_side),
            (Key::new("trailer.bunks.half_spacing"), bunks.half_spacing),
            (Key::new("trailer.bunks.port"), bunks.port),
            (Key::new("trailer.bunks.starboard"), bunks.starboard),
        ];
        for (key, side) in weights.chain(tanks).chain(others) {
            if let Some(side) = side.filter(|side| side.abs() > half) {
                let fault = Fault::BeyondBeam { found: self.show(side), half_beam: self.show(half) };
                self.blame(fault, key);
            }
        }
    }

    fn policy(&mut self) {
        let policy = &self.setup.policy;
        let band = policy.tongue_share;
        let min = band.min.unwrap_or(Share::from_si(defaults::TONGUE_SHARE.0));
        let max = band.max.unwrap_or(Share::from_si(defaults::TONGUE_SHARE.1));
        if min >= max {
            let fault = Fault::BandUpsideDown { min: self.show(min), max: self.show(max) };
            let (least, most) = (Key::new("policy.tongue_share.min"), Key::new("policy.tongue_share.max"));
            let stated = if band.min.is_some() { least } else { most };
            self.blame(fault, stated);
        }
        let both: Vec<String> =
            policy.counts.iter().filter(|p| policy.advises.contains(p)).cloned().collect();
        for pattern in both {
            self.blame(Fault::CountsAndAdvises(pattern), Key::new("policy.advises"));
        }
    }

    fn travel(&mut self) {
        let travel = self.setup.travel;
        let reaches = [
            ("travel.boat", travel.boat),
            ("travel.axles", travel.axles),
            ("travel.tongue", travel.tongue),
            ("travel.bunks", travel.bunks),
        ];
        for (key, reach) in reaches {
            if reach.is_some_and(|reach| reach.from > reach.to) {
                self.blame(Fault::TravelUpsideDown, Key::new(key));
            }
        }
    }

    fn ramps(&mut self) {
        let ramps = &self.setup.ramps;
        for (i, ramp) in ramps.iter().enumerate() {
            let named = |other: &super::Ramp| ramp.name.is_some() && other.name == ramp.name;
            if ramps[..i].iter().any(named) {
                let name = ramp.name.clone().unwrap_or_default();
                self.blame(Fault::DuplicateName(name), Key::of("ramps.*.name", i));
            }
            let another_shape = self.draft.seen.contains(&Key::of("ramps.*.profile", i));
            if ramp.profile.is_empty() && !another_shape {
                self.blame(Fault::NoRuns(i + 1), Key::of("ramps.*.name", i));
            }
            let inner = &ramp.profile[..ramp.profile.len().saturating_sub(1)];
            if let Some(short) = inner.iter().position(|run| {
                matches!((run.length, ramp.ease), (Some(length), Some(ease)) if ease > Length::from_si(0.0) && length <= ease)
            }) {
                self.blame(Fault::EaseTooLong(short + 1), Key::of("ramps.*.ease", i));
            }
            let (level, from_top) = (Key::of("ramps.*.water_level", i), Key::of("ramps.*.water_from_top", i));
            if ramp.water_level.is_some() && ramp.water_from_top.is_some() {
                self.contradiction(level, from_top);
            }
            if ramp.water_level.is_some_and(|level| level >= Length::from_si(0.0)) {
                self.blame(Fault::WaterAboveTop, level);
            }
        }
    }

    fn low_points(&mut self) {
        let setup = self.setup;
        let lists = [
            ("trailer.low_points.*.name", &setup.trailer.low_points),
            ("boat.low_points.*.name", &setup.boat.low_points),
            ("tow.low_points.*.name", &setup.tow.low_points),
        ];
        let points = lists.into_iter().flat_map(|(path, list)| {
            list.iter().enumerate().map(move |(i, point)| (Key::of(path, i), point.name.as_deref()))
        });
        let points: Vec<_> = points.filter_map(|(key, name)| Some((key, name?))).collect();
        for (n, (key, name)) in points.iter().enumerate() {
            if points[..n].iter().any(|(_, other)| super::slug(other) == super::slug(name)) {
                self.blame(Fault::DuplicateName((*name).to_string()), *key);
            }
        }
    }

    fn hull(&mut self) {
        let hull = &self.setup.boat.hull;
        for (i, at) in hull.deadrise_at.iter().enumerate() {
            let before = i.checked_sub(1).and_then(|before| hull.deadrise_at[before].station);
            if let (Some(before), Some(station)) = (before, at.station)
                && station <= before
            {
                self.blame(Fault::DeadriseOrder(i + 1), Key::of("boat.hull.deadrise.*.station", i));
            }
        }
        let listed = hull.deadrise_at.iter().enumerate();
        let listed = listed.map(|(i, at)| (Key::of("boat.hull.deadrise.*.deadrise", i), at.deadrise));
        let one = std::iter::once((Key::new("boat.hull.deadrise"), hull.deadrise));
        for (key, deadrise) in listed.chain(one) {
            if let Some(steep) = deadrise.filter(|deadrise| deadrise.si() >= STEEPEST_BOTTOM) {
                self.blame(Fault::TooSteep(self.show(steep)), key);
            }
        }
        if hull.deadrise.is_some() && !hull.deadrise_at.is_empty() {
            let listed = Key::of("boat.hull.deadrise.*.deadrise", 0);
            self.contradiction(Key::new("boat.hull.deadrise"), listed);
        }
        let from = hull.support_from.unwrap_or_default();
        if hull.straight_run.is_some_and(|end| end <= from) {
            self.blame(Fault::NoStraightRun, Key::new("boat.hull.straight_run"));
        }
    }

    fn bunks(&mut self) {
        let trailer = &self.setup.trailer;
        let ends = [
            (trailer.bunks.forward_end, trailer.bunks.aft_end, "trailer.bunks.forward_end"),
            (trailer.fenders.forward_end, trailer.fenders.aft_end, "trailer.fenders.forward_end"),
            (trailer.bow_bunks.forward_end, trailer.bow_bunks.aft_end, "trailer.bow_bunks.forward_end"),
        ];
        for (forward, aft, key) in ends {
            if let (Some(forward), Some(aft)) = (forward, aft)
                && forward >= aft
            {
                self.blame(Fault::EndsReversed, Key::new(key));
            }
        }
        if let Some(board) = trailer.bunks.board.as_deref()
            && nominal_size(board).is_none()
        {
            self.blame(Fault::NotASize(board.escape_debug().to_string()), Key::new("trailer.bunks.board"));
        }
        if let Some(bolts) = trailer.bunks.brackets.bolts.filter(|bolts| !(1..=20).contains(bolts)) {
            self.blame(Fault::BoltCount(bolts), Key::new("trailer.bunks.brackets.bolts"));
        }
        for (i, member) in trailer.crossmembers.iter().enumerate() {
            let near = |other: &super::Crossmember| match (other.station, member.station) {
                (Some(one), Some(other)) => (one - other).abs().si() < APART,
                _ => false,
            };
            if trailer.crossmembers[..i].iter().any(near) {
                self.blame(Fault::SameStation(i + 1), Key::of("trailer.crossmembers.*.station", i));
            }
        }
    }

    /// The boat with all aboard in a case, where the file tells it.
    fn boat_in(&self, case: &Case) -> Option<Weight> {
        let setup = self.setup;
        if setup.known_from_scales() {
            let body = setup.measured.gross_trailer_weight? - setup.trailer_weight()?;
            return Some(body - self.tanks_at_first_case() + self.tanks_in(Some(case)));
        }
        let aboard = setup.boat.weights.iter().enumerate();
        let aboard = aboard.filter(|(i, _)| case.carries(super::Part::Weight(*i)));
        let items: Option<Weight> = aboard.map(|(_, item)| item.weight).sum();
        Some(items? + self.tanks_in(Some(case)))
    }

    fn ashore(&mut self) {
        let Some(ashore) = self.setup.shift.ashore.filter(|ashore| ashore.si() > 0.0) else { return };
        let boats = self.setup.cases.iter().filter_map(|case| Some((case, self.boat_in(case)?)));
        let least = boats.min_by(|(_, a), (_, b)| a.si().total_cmp(&b.si()));
        if let Some((case, boat)) = least.filter(|(_, boat)| ashore >= *boat) {
            let fault = Fault::MoreAshoreThanAboard {
                case: case.name.clone().unwrap_or_default(),
                boat: self.system().weight(boat),
                found: self.show(ashore),
            };
            self.blame(fault, Key::new("shift.ashore"));
        }
    }

    fn shift(&mut self) {
        let shift = self.setup.shift;
        let zero = Length::from_si(0.0);
        let (axles, tongue) = (shift.axles.unwrap_or(zero), shift.tongue.unwrap_or(zero));
        let moved = axles - tongue;
        let Some(front) = self.setup.trailer.axles.first().and_then(|axle| axle.station) else { return };
        let jack = self.setup.trailer.jack.station;
        if moved < zero && front + moved <= jack.unwrap_or(zero) {
            let key = if tongue > zero { "shift.tongue" } else { "shift.axles" };
            self.blame(Fault::ShiftedAxles { jack: jack.is_some() }, Key::new(key));
        }
    }
}

/// Whether the file states an equalizer's travel that its suspension does not use.
pub(super) fn idle_equalizer_travel(setup: &Setup) -> bool {
    let suspension = setup.trailer.suspension;
    let idle = suspension.kind.is_some_and(|kind| kind != SuspensionKind::LeafEqualized);
    idle && suspension.equalizer_travel.is_some()
}
