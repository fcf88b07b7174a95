//! What must hold between the values of a rig file.

use super::defaults;
use super::inputs::{self, At, Handle, Implausible, Input, Key};
use super::problem::{Fault, Problem};
use super::read::{Draft, out_of_bounds};
use super::setup::{Case, MAX_AXLES, Setup, SuspensionKind, nominal_size};
use super::source::Span;
use super::tires;
use super::{KEEL, NO_LOW_POINTS};
use crate::quantity::show::{UnitSystem, written};
use crate::quantity::{Kind, Length, Quantity, STANDARD_GRAVITY, Uncertain, Weight};

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
    rules.dates();
    rules.bounds();
    rules.quantities();
    rules.implausible();
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
        self.brakes();
        self.contradictions();
        self.trailer_weights();
        self.measured();
        self.weighings();
        self.sides();
        self.policy();
        self.travel();
        self.shift();
        self.ashore();
        self.ramps();
        self.hull();
        self.sections();
        self.bunks();
        self.winch();
        self.tie_downs();
    }

    /// Where a rule is broken, what is hardly meant as it stands: a rule between two keys does not know which of them is wrong.
    fn implausible(&mut self) {
        if self.found.is_empty() {
            return;
        }
        for value in self.setup.implausible().into_iter().filter(Implausible::is_far_off) {
            let blamed = self
                .place(value.key)
                .is_none_or(|at| self.found.iter().any(|one| one.at.as_ref() == Some(&at)));
            let Some(kind) = value.key.input().and_then(Input::kind).filter(|_| !blamed) else { continue };
            let show = |si: f64| written(Uncertain { value: si, bound: 0.0 }, kind, self.system());
            let (least, most) = value.range;
            let fault = Fault::Implausible { found: show(value.value), least: show(least), most: show(most) };
            self.blame(fault, value.key);
        }
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
        let key = inputs::FORMAT.key();
        match self.setup.format {
            Some(1) => {}
            Some(other) => self.blame(Fault::OtherFormat(other), key),
            None if self.draft.seen.contains(&key) => {}
            None => self.blame(Fault::NoFormat, key),
        }
    }

    /// Both ends of a ± must be values that the key may have; a share stops at its own ends.
    fn bounds(&mut self) {
        for (key, bound) in &self.draft.bounds {
            let Some((input, kind)) = key.input().and_then(|input| Some((input, input.kind()?))) else {
                continue;
            };
            let Some(value) = input.si(self.setup, key.at).filter(|_| kind != Kind::Share) else { continue };
            let out = [value - bound, value + bound].into_iter().find_map(|value| {
                let end = Uncertain { value, bound: 0.0 };
                let text = || format!("{} at an end of its ±", written(end, kind, self.system()));
                out_of_bounds(input, kind, end, text)
            });
            if let Some(fault) = out {
                self.blame(fault, *key);
            }
        }
    }

    fn brakes(&mut self) {
        let brakes = &self.setup.trailer.brakes;
        // Nothing would be checked of what is stated.
        let stated = self.draft.seen.iter().find(|key| key.path.starts_with("trailer.brakes.")).copied();
        if let Some(key) = stated.filter(|_| brakes.kind.is_none()) {
            self.blame(Fault::BrakesOfNoKind, key);
        }
        if brakes.gain.is_some() {
            let parts = [
                (inputs::TRAILER_BRAKES_BORE.key(), brakes.bore.is_some()),
                (inputs::TRAILER_BRAKES_LEVERAGE.key(), brakes.leverage.is_some()),
                (inputs::TRAILER_BRAKES_EFFICIENCY.key(), brakes.efficiency.is_some()),
                (inputs::TRAILER_BRAKES_PRESSURE_MAX.key(), brakes.pressure_max.is_some()),
            ];
            for (part, _) in parts.into_iter().filter(|(part, has)| *has && !self.setup.is_assumed(*part)) {
                self.contradiction(inputs::TRAILER_BRAKES_GAIN.key(), part);
            }
        }
        if brakes.preload.is_some()
            && brakes.preload_share.is_some()
            && !self.setup.is_assumed(inputs::TRAILER_BRAKES_PRELOAD_SHARE.key())
        {
            self.contradiction(
                inputs::TRAILER_BRAKES_PRELOAD.key(),
                inputs::TRAILER_BRAKES_PRELOAD_SHARE.key(),
            );
        }
        if let (Some(least), Some(greatest)) = (brakes.least_gross, brakes.greatest_gross)
            && least >= greatest
        {
            let keys =
                (inputs::TRAILER_BRAKES_LEAST_GROSS.key(), inputs::TRAILER_BRAKES_GREATEST_GROSS.key());
            self.blame_both(Fault::ActuatorUpsideDown, keys.0, keys.1);
        }
        for (i, axle) in self.setup.trailer.axles.iter().enumerate() {
            if axle.braked == Some(false) && axle.brakes.kind.is_some() {
                let keys = (inputs::TRAILER_AXLES_BRAKES_KIND.of(i), inputs::TRAILER_AXLES_BRAKED.of(i));
                self.blame_both(Fault::BrakesOnUnbraked(i + 1), keys.0, keys.1);
            }
        }
    }

    fn axles(&mut self) {
        let axles = &self.setup.trailer.axles;
        let key = Key::new("trailer.axles");
        if axles.is_empty() && !self.draft.seen.contains(&key) {
            self.blame(Fault::NoAxles, key);
        }
        if axles.len() > MAX_AXLES {
            let key = inputs::TRAILER_AXLES_STATION.of(MAX_AXLES);
            self.blame(Fault::TooManyAxles(axles.len()), key);
        }
        for i in 1..axles.len() {
            if let (Some(ahead), Some(behind)) = (axles[i - 1].station, axles[i].station)
                && behind <= ahead
            {
                let key = |i| inputs::TRAILER_AXLES_STATION.of(i);
                self.blame_both(Fault::AxleOrder(i + 1), key(i), key(i - 1));
            }
        }
        for (i, axle) in axles.iter().enumerate() {
            if let Some(count) = axle.tires.count.filter(|count| !matches!(count, 2 | 4)) {
                self.blame(Fault::TireCount(count), inputs::TRAILER_AXLES_TIRES_COUNT.of(i));
            }
        }
        for (i, tires) in axles.iter().map(|axle| &axle.tires).enumerate() {
            if let Some(index) = tires.load_index.filter(|index| tires::load_of_index(*index).is_none()) {
                self.blame(Fault::LoadIndex(index), inputs::TRAILER_AXLES_TIRES_LOAD_INDEX.of(i));
            }
            let letters = tires.size.as_deref().and_then(defaults::marked_kind);
            if let (Some(letters), Some(kind)) = (letters, tires.kind.filter(|kind| Some(*kind) != letters)) {
                let fault = Fault::TireKind { found: kind.word(), letters: letters.word() };
                let size = inputs::TRAILER_AXLES_TIRES_SIZE.of(i);
                self.blame_both(fault, inputs::TRAILER_AXLES_TIRES_KIND.of(i), size);
            }
        }
        if let Some(length) = self.setup.trailer.length {
            for (i, axle) in axles.iter().enumerate() {
                if let Some(station) = axle.station.filter(|station| *station > length) {
                    let fault =
                        Fault::AxleBehindTrailer { found: self.show(station), length: self.show(length) };
                    let length = inputs::TRAILER_LENGTH.key();
                    self.blame_both(fault, inputs::TRAILER_AXLES_STATION.of(i), length);
                }
            }
        }
        let front = axles.first().and_then(|axle| axle.station);
        if let (Some(jack), Some(front)) = (self.setup.trailer.jack.station, front)
            && jack >= front
        {
            let front = inputs::TRAILER_AXLES_STATION.of(0);
            self.blame_both(Fault::JackBehindAxle, inputs::TRAILER_JACK_STATION.key(), front);
        }
    }

    fn contradictions(&mut self) {
        self.not_both(inputs::TRAILER_BOW_STOP, inputs::TRAILER_TRANSOM, [0, 0]);
        self.not_both(inputs::TRAILER_CG, inputs::TRAILER_TONGUE_WEIGHT, [0, 0]);
        self.not_both(inputs::TRAILER_WEIGHT, inputs::TRAILER_CAPACITY, [0, 0]);
        self.not_both(inputs::TRAILER_BUNKS_HALF_SPACING, inputs::TRAILER_BUNKS_PORT, [0, 0]);
        self.not_both(inputs::TRAILER_BUNKS_HALF_SPACING, inputs::TRAILER_BUNKS_STARBOARD, [0, 0]);
        self.not_both(inputs::TRAILER_BUNKS_BOARD, inputs::TRAILER_BUNKS_WIDTH, [0, 0]);
        self.not_both(inputs::TRAILER_BUNKS_BOARD, inputs::TRAILER_BUNKS_DEPTH, [0, 0]);
        self.not_both(inputs::TRAILER_BUNKS_WOOD, inputs::TRAILER_BUNKS_BENDING, [0, 0]);
        self.not_both(inputs::TRAILER_BUNKS_WOOD, inputs::TRAILER_BUNKS_SHEAR, [0, 0]);
        self.not_both(inputs::TRAILER_BUNKS_WOOD, inputs::TRAILER_BUNKS_MODULUS, [0, 0]);
        self.not_both(inputs::TRAILER_BUNKS_WOOD, inputs::TRAILER_BUNKS_BEARING, [0, 0]);
        self.parts_of_the_hitch();
        let (moment, restored) =
            (inputs::HITCH_WEIGHT_DISTRIBUTION_MOMENT, inputs::HITCH_WEIGHT_DISTRIBUTION_RESTORED);
        self.not_both(moment, restored, [0, 0]);
        for i in 0..self.setup.boat.tanks.len() {
            self.not_both(inputs::BOAT_TANKS_FLUID, inputs::BOAT_TANKS_DENSITY, [i, 0]);
        }
    }

    /// What is said not to be there has no figures.
    fn parts_of_the_hitch(&mut self) {
        let (receiver, mount, ball) = (inputs::HITCH_RECEIVER, inputs::HITCH_BALL_MOUNT, inputs::HITCH_BALL);
        self.not_both(receiver, inputs::HITCH_RECEIVER_RATING, [0, 0]);
        self.not_both(receiver, inputs::HITCH_RECEIVER_TONGUE_RATING, [0, 0]);
        self.not_both(receiver, inputs::HITCH_RECEIVER_TUBE, [0, 0]);
        self.not_both(mount, inputs::HITCH_BALL_MOUNT_RATING, [0, 0]);
        self.not_both(mount, inputs::HITCH_BALL_MOUNT_TONGUE_RATING, [0, 0]);
        self.not_both(mount, inputs::HITCH_BALL_MOUNT_SHANK, [0, 0]);
        self.not_both(ball, inputs::HITCH_BALL_RATING, [0, 0]);
        self.not_both(ball, inputs::HITCH_BALL_DIAMETER, [0, 0]);
        self.not_both(ball, inputs::TRAILER_COUPLER_BALL_SIZE, [0, 0]);
    }

    fn not_both<A, B>(&mut self, one: Handle<A>, other: Handle<B>, at: At) {
        if one.is_stated(self.setup, at) && other.is_stated(self.setup, at) {
            self.contradiction(one.at(at), other.at(at));
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
        let weights = boat.weights.iter().enumerate().map(|(i, w)| (inputs::BOAT_WEIGHTS_ID.of(i), &w.id));
        let tanks = boat.tanks.iter().enumerate().map(|(i, t)| (inputs::BOAT_TANKS_ID.of(i), &t.id));
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
            self.blame_both(fault, inputs::TRAILER_CAPACITY.key(), inputs::TRAILER_GVWR.key());
        }
        let axles: Weight = trailer.axles.iter().filter_map(|axle| axle.weight).sum();
        if let Some(weight) = self.setup.trailer_weight().filter(|weight| axles > *weight) {
            let fault = Fault::AxlesOutweighTrailer {
                axles: self.system().weight(axles),
                weight: self.system().weight(weight),
            };
            let last = trailer.axles.iter().rposition(|axle| axle.weight.is_some()).unwrap_or(0);
            self.blame(fault, inputs::TRAILER_AXLES_WEIGHT.of(last));
        }
        self.tongue_below(
            trailer.tongue_weight,
            self.setup.trailer_weight(),
            inputs::TRAILER_TONGUE_WEIGHT.key(),
        );
    }

    fn tongue_below(&mut self, tongue: Option<Weight>, whole: Option<Weight>, key: Key) {
        if let (Some(tongue), Some(whole)) = (tongue, whole)
            && tongue >= whole
        {
            let fault = Fault::TongueNotBelowWeight { found: self.show(tongue), whole: self.show(whole) };
            self.blame(fault, key);
        }
    }

    fn measured(&mut self) {
        let measured = &self.setup.measured;
        let (weighed, axles) = (measured.axles.len(), self.setup.trailer.axles.len());
        if weighed > 0 && weighed != axles {
            let fault = Fault::AxlesWeighed { found: weighed, axles };
            self.blame(fault, inputs::MEASURED_AXLES.of(weighed.min(axles + 1) - 1));
        }
        let gross = measured.gross();
        self.tongue_below(measured.tongue_weight, gross, inputs::MEASURED_TONGUE_WEIGHT.key());
        if let (true, Some(gross), Some(trailer)) =
            (self.setup.goes_by_scales(), gross, self.setup.trailer_weight())
        {
            let parts = trailer + self.tanks_at_first_case();
            if parts >= gross {
                let fault =
                    Fault::NothingLeftForBoat { found: self.show(gross), parts: self.system().weight(parts) };
                self.blame(fault, inputs::MEASURED_GROSS_TRAILER_WEIGHT.key());
            }
        }
    }

    fn weighings(&mut self) {
        let setup = self.setup;
        for (i, reading) in setup.weighings.iter().enumerate() {
            let weight = inputs::WEIGHINGS_WEIGHT.of(i);
            let Some(what) = reading.what else {
                // One that cannot be read is blamed already.
                if !self.draft.seen.contains(&inputs::WEIGHINGS_WHAT.of(i)) {
                    self.blame(Fault::WeighingLacks("what"), weight);
                }
                continue;
            };
            let axles = setup.trailer.axles.len();
            if what.axle().is_some_and(|axle| axle >= axles) {
                let fault = Fault::WeighingOfNoAxle { found: what.word(), axles };
                self.blame(fault, inputs::WEIGHINGS_WHAT.of(i));
            }
            if what.is_on_axles() && reading.coupled == Some(false) {
                self.blame(Fault::WeighingOnJack, inputs::WEIGHINGS_COUPLED.of(i));
            }
            match reading.weight {
                None if self.draft.seen.contains(&weight) => {}
                None => self.blame(Fault::WeighingLacks("weight"), inputs::WEIGHINGS_WHAT.of(i)),
                Some(shown) if self.draft.bounds.get(&weight).is_none_or(|bound| *bound <= 0.0) => {
                    self.blame(Fault::WeighingWithoutBound(self.show(shown)), weight);
                }
                Some(_) => {}
            }
            if let Some(case) = &reading.case
                && !setup.cases.iter().any(|known| known.name.as_ref() == Some(case))
            {
                self.blame(Fault::NoSuchCase(case.escape_debug().to_string()), inputs::WEIGHINGS_CASE.of(i));
            }
            let bow = setup.trailer.bow_stop.zip(reading.boat).map(|(bow, boat)| bow + boat);
            let is_off =
                |bow: Length| bow.si() < 0.0 || setup.trailer.length.is_some_and(|length| bow >= length);
            if let (Some(boat), true) = (reading.boat, bow.is_some_and(is_off)) {
                self.blame(Fault::BoatOffTrailer(self.show(boat)), inputs::WEIGHINGS_BOAT.of(i));
            }
        }
    }

    /// What the tanks held when the rig was weighed, where that is known.
    fn tanks_at_first_case(&self) -> Weight {
        self.tanks_in(self.setup.cases.first())
    }

    /// What the tanks hold in a case, where that is known.
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
        let weights = boat.weights.iter().enumerate().map(|(i, w)| (inputs::BOAT_WEIGHTS_SIDE.of(i), w.side));
        let tanks = boat.tanks.iter().enumerate().map(|(i, t)| (inputs::BOAT_TANKS_SIDE.of(i), t.side));
        let bunks = &self.setup.trailer.bunks;
        let others = [
            (inputs::BOAT_CG_SIDE.key(), boat.cg_side),
            (inputs::TRAILER_BUNKS_HALF_SPACING.key(), bunks.half_spacing),
            (inputs::TRAILER_BUNKS_PORT.key(), bunks.port),
            (inputs::TRAILER_BUNKS_STARBOARD.key(), bunks.starboard),
        ];
        let ends = self.setup.trailer.tie_downs.iter().enumerate();
        let ends = ends.map(|(i, one)| (inputs::TRAILER_TIE_DOWNS_BOAT_SIDE.of(i), one.boat.side));
        for (key, side) in weights.chain(tanks).chain(others).chain(ends) {
            if let Some(side) = side.filter(|side| side.abs() > half) {
                let fault = Fault::BeyondBeam { found: self.show(side), half_beam: self.show(half) };
                self.blame(fault, key);
            }
        }
    }

    fn policy(&mut self) {
        if let Some(factor) = self.setup.policy.road_factor.filter(|factor| !(1.0..=10.0).contains(factor)) {
            self.blame(Fault::NoFactor(factor), inputs::POLICY_ROAD_FACTOR.key());
        }
        let policy = &self.setup.policy;
        let band = policy.tongue_share;
        let ([least, most], _) = defaults::usual_tongue_share(policy.rules);
        let (min, max) = (band.min.or(Some(least)), band.max.or(Some(most)));
        if let (Some(min), Some(max)) = (min, max)
            && min >= max
        {
            let fault = Fault::BandUpsideDown { min: self.show(min), max: self.show(max) };
            let (least, most) =
                (inputs::POLICY_TONGUE_SHARE_MIN.key(), inputs::POLICY_TONGUE_SHARE_MAX.key());
            let stated = if band.min.is_some() { least } else { most };
            self.blame(fault, stated);
        }
        let both: Vec<String> =
            policy.counts.iter().filter(|p| policy.advises.contains(p)).cloned().collect();
        for pattern in both {
            self.blame(Fault::CountsAndAdvises(pattern), inputs::POLICY_ADVISES.key());
        }
    }

    fn travel(&mut self) {
        let travel = self.setup.travel;
        let reaches = [
            (inputs::TRAVEL_BOAT.key(), travel.boat),
            (inputs::TRAVEL_AXLES.key(), travel.axles),
            (inputs::TRAVEL_TONGUE.key(), travel.tongue),
            (inputs::TRAVEL_BUNKS.key(), travel.bunks),
        ];
        for (key, reach) in reaches {
            if reach.is_some_and(|reach| reach.from > reach.to) {
                self.blame(Fault::TravelUpsideDown, key);
            }
        }
    }

    fn ramps(&mut self) {
        let ramps = &self.setup.ramps;
        for (i, ramp) in ramps.iter().enumerate() {
            let named = |other: &super::Ramp| ramp.name.is_some() && other.name == ramp.name;
            if ramps[..i].iter().any(named) {
                let name = ramp.name.clone().unwrap_or_default();
                self.blame(Fault::DuplicateName(name), inputs::RAMPS_NAME.of(i));
            }
            let another_shape = self.draft.seen.contains(&Key::of("ramps.*.profile", i));
            if ramp.profile.is_empty() && !another_shape {
                self.blame(Fault::NoRuns(i + 1), inputs::RAMPS_NAME.of(i));
            }
            let inner = &ramp.profile[..ramp.profile.len().saturating_sub(1)];
            if let Some(short) = inner.iter().position(|run| {
                matches!((run.length, ramp.ease), (Some(length), Some(ease)) if ease > Length::from_si(0.0) && length <= ease)
            }) {
                self.blame(Fault::EaseTooLong(short + 1), inputs::RAMPS_EASE.of(i));
            }
            let (level, from_top) = (inputs::RAMPS_WATER_LEVEL.of(i), inputs::RAMPS_WATER_FROM_TOP.of(i));
            if ramp.water_level.is_some() && ramp.water_from_top.is_some() {
                self.contradiction(level, from_top);
            }
            if ramp.water_level.is_some_and(|level| level >= Length::from_si(0.0)) {
                self.blame(Fault::WaterAboveTop, level);
            }
        }
    }

    /// Dates that are days, and date codes that are weeks before them.
    fn dates(&mut self) {
        let trip = self.setup.trip.date.as_deref();
        let day = trip.and_then(tires::day_of_date);
        if let (Some(text), None) = (trip, day) {
            self.blame(Fault::NotADate(text.escape_debug().to_string()), inputs::TRIP_DATE.key());
        }
        for (i, axle) in self.setup.trailer.axles.iter().enumerate() {
            let Some(code) = axle.tires.date.as_deref() else { continue };
            let key = inputs::TRAILER_AXLES_TIRES_DATE.of(i);
            match (tires::day_of_date_code(code), day) {
                (None, _) => self.blame(Fault::NotADateCode(code.escape_debug().to_string()), key),
                (Some(made), Some(day)) if made > day => {
                    let date = trip.unwrap_or_default().to_string();
                    let fault = Fault::MadeAfterTrip { found: code.to_string(), date };
                    self.blame_both(fault, key, inputs::TRIP_DATE.key());
                }
                _ => {}
            }
        }
    }

    fn low_points(&mut self) {
        let setup = self.setup;
        let lists = [
            (inputs::TRAILER_LOW_POINTS_NAME, &setup.trailer.low_points),
            (inputs::BOAT_LOW_POINTS_NAME, &setup.boat.low_points),
            (inputs::TOW_LOW_POINTS_NAME, &setup.tow.low_points),
        ];
        let points = lists.into_iter().flat_map(|(name, list)| {
            list.iter().enumerate().map(move |(i, point)| (name.of(i), point.name.as_deref()))
        });
        let points: Vec<_> = points.filter_map(|(key, name)| Some((key, name?))).collect();
        for (n, (key, name)) in points.iter().enumerate() {
            if points[..n].iter().any(|(_, other)| super::slug(other) == super::slug(name)) {
                self.blame(Fault::DuplicateName((*name).to_string()), *key);
            }
            if [KEEL, NO_LOW_POINTS].contains(&super::slug(name).as_str()) {
                self.blame(Fault::ReservedName((*name).to_string()), *key);
            }
        }
    }

    fn hull(&mut self) {
        let boat = &self.setup.boat;
        if let (Some(station), Some(length)) = (boat.bow_eye.station, boat.length)
            && station > length
        {
            let fault = Fault::BowEyeAheadOfBoat { found: self.show(station), length: self.show(length) };
            self.blame_both(fault, inputs::BOAT_BOW_EYE_STATION.key(), inputs::BOAT_LENGTH.key());
        }
        let hull = &boat.hull;
        for (i, at) in hull.deadrise_at.iter().enumerate() {
            let before = i.checked_sub(1).and_then(|before| hull.deadrise_at[before].station);
            if let (Some(before), Some(station)) = (before, at.station)
                && station <= before
            {
                self.blame(Fault::DeadriseOrder(i + 1), inputs::BOAT_HULL_DEADRISE_STATION.of(i));
            }
        }
        let listed = hull.deadrise_at.iter().enumerate();
        let listed = listed.map(|(i, at)| (inputs::BOAT_HULL_DEADRISE_DEADRISE.of(i), at.deadrise));
        let one = std::iter::once((inputs::BOAT_HULL_DEADRISE.key(), hull.deadrise));
        for (key, deadrise) in listed.chain(one) {
            if let Some(steep) = deadrise.filter(|deadrise| deadrise.si() >= STEEPEST_BOTTOM) {
                self.blame(Fault::TooSteep(self.show(steep)), key);
            }
        }
        if hull.deadrise.is_some() && !hull.deadrise_at.is_empty() {
            let listed = inputs::BOAT_HULL_DEADRISE_DEADRISE.of(0);
            self.contradiction(inputs::BOAT_HULL_DEADRISE.key(), listed);
        }
        let from = hull.support_from.unwrap_or_default();
        if hull.straight_run.is_some_and(|end| end <= from) {
            self.blame(Fault::NoStraightRun, inputs::BOAT_HULL_STRAIGHT_RUN.key());
        }
    }

    /// The hull's sections run from the transom forward, and the sheer is each one's highest point.
    fn sections(&mut self) {
        let sections = &self.setup.boat.sections;
        if sections.len() == 1 {
            self.blame(Fault::OneSection, inputs::BOAT_SECTIONS_STATION.of(0));
        }
        for (i, section) in sections.iter().enumerate() {
            match (i.checked_sub(1).and_then(|before| sections[before].station), section.station) {
                (None, Some(first)) if i == 0 && first.si() != 0.0 => {
                    self.blame(Fault::NoTransom(self.show(first)), inputs::BOAT_SECTIONS_STATION.of(0));
                }
                (Some(before), Some(station)) if station <= before => {
                    self.blame(Fault::SectionOrder(i + 1), inputs::BOAT_SECTIONS_STATION.of(i));
                }
                _ => {}
            }
            // A chine below its keel is a hull: both may run into the stem.
            for (below, lower) in [(section.chine.height, "chine"), (section.keel, "keel")] {
                if below.zip(section.sheer.height).is_some_and(|(below, sheer)| sheer < below) {
                    let fault = Fault::LowSheer { lower, number: i + 1 };
                    self.blame(fault, inputs::BOAT_SECTIONS_SHEER_HEIGHT.of(i));
                    break;
                }
            }
        }
    }

    fn bunks(&mut self) {
        let trailer = &self.setup.trailer;
        let ends = [
            (trailer.bunks.forward_end, trailer.bunks.aft_end, inputs::TRAILER_BUNKS_FORWARD_END.key()),
            (trailer.fenders.forward_end, trailer.fenders.aft_end, inputs::TRAILER_FENDERS_FORWARD_END.key()),
            (
                trailer.bow_bunks.forward_end,
                trailer.bow_bunks.aft_end,
                inputs::TRAILER_BOW_BUNKS_FORWARD_END.key(),
            ),
            (
                trailer.keel_rollers.forward_end,
                trailer.keel_rollers.aft_end,
                inputs::TRAILER_KEEL_ROLLERS_FORWARD_END.key(),
            ),
        ];
        for (forward, aft, key) in ends {
            if let (Some(forward), Some(aft)) = (forward, aft)
                && forward >= aft
            {
                self.blame(Fault::EndsReversed, key);
            }
        }
        if let Some(board) = trailer.bunks.board.as_deref()
            && nominal_size(board).is_none()
        {
            self.blame(Fault::NotASize(board.escape_debug().to_string()), inputs::TRAILER_BUNKS_BOARD.key());
        }
        if let Some(bolts) = trailer.bunks.brackets.bolts.filter(|bolts| !(1..=20).contains(bolts)) {
            self.blame(Fault::BoltCount(bolts), inputs::TRAILER_BUNKS_BRACKETS_BOLTS.key());
        }
        for (i, member) in trailer.crossmembers.iter().enumerate() {
            let near = |other: &super::Crossmember| match (other.station, member.station) {
                (Some(one), Some(other)) => (one - other).abs().si() < APART,
                _ => false,
            };
            if trailer.crossmembers[..i].iter().any(near) {
                self.blame(Fault::SameStation(i + 1), inputs::TRAILER_CROSSMEMBERS_STATION.of(i));
            }
        }
    }

    fn winch(&mut self) {
        let winch = self.setup.trailer.winch;
        if let (Some(core), Some(flange)) = (winch.core, winch.flange)
            && flange <= core
        {
            let fault = Fault::FlangeNotAboveCore { found: self.show(flange), core: self.show(core) };
            self.blame_both(fault, inputs::TRAILER_WINCH_FLANGE.key(), inputs::TRAILER_WINCH_CORE.key());
        }
        if let (Some(without), Some(rated)) = (winch.no_load_current, winch.rated_current)
            && rated <= without
        {
            let fault = Fault::MotorUpsideDown { what: "current", way: "above" };
            let other = inputs::TRAILER_WINCH_NO_LOAD_CURRENT.key();
            self.blame_both(fault, inputs::TRAILER_WINCH_RATED_CURRENT.key(), other);
        }
        if let (Some(without), Some(rated)) = (winch.no_load_speed, winch.rated_speed)
            && rated >= without
        {
            let fault = Fault::MotorUpsideDown { what: "speed", way: "below" };
            let other = inputs::TRAILER_WINCH_NO_LOAD_SPEED.key();
            self.blame_both(fault, inputs::TRAILER_WINCH_RATED_SPEED.key(), other);
        }
        let limits = (inputs::TRAILER_WINCH_STRAP_WORKING.key(), inputs::TRAILER_WINCH_STRAP_BREAKING.key());
        self.working_below_breaking(winch.strap.working, winch.strap.breaking, limits);
        let (moment, modulus) =
            (inputs::TRAILER_WINCH_POST_MOMENT, inputs::TRAILER_WINCH_POST_SECTION_MODULUS);
        self.not_both(moment, modulus, [0, 0]);
        self.not_both(moment, inputs::TRAILER_WINCH_POST_YIELD, [0, 0]);
        self.winch_and_eye();
    }

    /// The winch draws the eye forward, with a strap that reaches it.
    fn winch_and_eye(&mut self) {
        let (setup, winch) = (self.setup, self.setup.trailer.winch);
        let (Some(eye), Some(station)) = (setup.eye_at_stop(), winch.station) else { return };
        if station >= eye {
            let fault = Fault::WinchBehindEye { found: self.show(station), eye: self.show(eye) };
            self.blame(fault, inputs::TRAILER_WINCH_STATION.key());
            return;
        }
        if let (Some(reach), Some(length)) = (setup.winch_reach(), winch.strap.length)
            && length < reach
        {
            let fault =
                Fault::StrapTooShort { found: self.show(length), reach: self.system().distance(reach) };
            self.blame(fault, inputs::TRAILER_WINCH_STRAP_LENGTH.key());
        }
    }

    fn tie_downs(&mut self) {
        let trailer = &self.setup.trailer;
        for (i, tie_down) in trailer.tie_downs.iter().enumerate() {
            if let Some(count) = tie_down.count.filter(|count| !matches!(count, 1 | 2)) {
                self.blame(Fault::TieDownCount(count), inputs::TRAILER_TIE_DOWNS_COUNT.of(i));
            }
            let limits = (inputs::TRAILER_TIE_DOWNS_WORKING.of(i), inputs::TRAILER_TIE_DOWNS_BREAKING.of(i));
            self.working_below_breaking(tie_down.working, tie_down.breaking, limits);
            if self.setup.tie_down_length(tie_down).is_some_and(|length| length.si() < APART) {
                self.blame(Fault::EndsCoincide(i + 1), inputs::TRAILER_TIE_DOWNS_TRAILER_STATION.of(i));
            }
        }
        if let Some(count) = trailer.safety_chains.count.filter(|count| !(1..=4).contains(count)) {
            self.blame(Fault::ChainCount(count), inputs::TRAILER_SAFETY_CHAINS_COUNT.key());
        }
    }

    fn working_below_breaking(
        &mut self,
        working: Option<Weight>,
        breaking: Option<Weight>,
        (key, other): (Key, Key),
    ) {
        if let (Some(working), Some(breaking)) = (working, breaking)
            && working > breaking
        {
            let fault =
                Fault::WorkingOverBreaking { found: self.show(working), breaking: self.show(breaking) };
            self.blame_both(fault, key, other);
        }
    }

    /// The boat with all aboard in a case, where the file states it.
    fn boat_in(&self, case: &Case) -> Option<Weight> {
        let setup = self.setup;
        if setup.known_from_scales() {
            let body = setup.measured.gross()? - setup.trailer_weight()?;
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
            self.blame(fault, inputs::SHIFT_ASHORE.key());
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
            let key = if tongue > zero { inputs::SHIFT_TONGUE.key() } else { inputs::SHIFT_AXLES.key() };
            self.blame(Fault::ShiftedAxles { jack: jack.is_some() }, key);
        }
        // The tongue drawn in brings the aft end along.
        let rear = self.setup.trailer.axles.last().and_then(|axle| axle.station);
        if let (Some(rear), Some(length)) = (rear, self.setup.trailer.length)
            && axles > zero
            && rear + axles > length
        {
            let fault =
                Fault::AxleBehindTrailer { found: self.show(rear + axles), length: self.show(length) };
            self.blame_both(fault, inputs::SHIFT_AXLES.key(), inputs::TRAILER_LENGTH.key());
        }
    }
}

/// The crossmember that stands on the other side of one before it in the list than it did, if one does.
pub(super) fn reordered(before: &Setup, after: &Setup) -> Option<Fault> {
    let (before, after) = (&before.trailer.crossmembers, &after.trailer.crossmembers);
    let passed = |i: usize, j: usize| {
        let apart =
            |members: &[super::Crossmember]| Some(members.get(j)?.station? - members.get(i)?.station?);
        apart(before)
            .zip(apart(after))
            .is_some_and(|(before, after)| (before.si() > 0.0) != (after.si() > 0.0))
    };
    let last = (0..after.len()).find(|j| (0..*j).any(|i| passed(i, *j)));
    last.map(|j| Fault::SameStation(j + 1))
}

/// Whether the file states an equalizer's travel that its suspension does not use.
pub(super) fn idle_equalizer_travel(setup: &Setup) -> bool {
    let suspension = setup.trailer.suspension;
    let idle = suspension.kind.is_some_and(|kind| kind != SuspensionKind::LeafEqualized);
    idle && suspension.equalizer_travel.is_some()
}
