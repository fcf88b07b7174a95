//! A rig's loads over a ramp: what the traverse finds, gathered into peaks.

use crate::fit::known::{Known, Missing, both, each, known, need};
use crate::fit::model::Model;
use crate::fit::placement::{BoatPoint, Placement};
use crate::fit::road::{Carried, ball_on_level};
use crate::mechanics::ramp::{Convoy, Greatest, HitchSpring, Instant, Stranded, TowShape, traverse};
use crate::mechanics::road::sides;
use crate::mechanics::terrain::RampRun;
use crate::mechanics::tow::{self, Grip, Hold, Motion, OnRamp};
use crate::mechanics::{Body, FramePoint, GroundPoint, PerAxle, Terrain, Undercarriage, Unsettled, settle};
use crate::quantity::{Angle, Length, Quantity, Share, Slope, Weight};
use crate::rig::inputs::{
    BOAT_BOW_EYE_HEIGHT, BOAT_BOW_EYE_STATION, BOAT_BOW_OVERHANG, BOAT_LOW_POINTS_HEIGHT,
    BOAT_LOW_POINTS_STATION, RAMPS_EASE, RAMPS_PROFILE_GRADE, RAMPS_PROFILE_LENGTH, TOW_BALL_HEIGHT,
    TOW_BALL_OVERHANG, TOW_BODY_AFT_STATION, TOW_CG_HEIGHT, TOW_DRIVEN, TOW_FRONT_AXLE_LOAD,
    TOW_LOW_POINTS_HEIGHT, TOW_LOW_POINTS_STATION, TOW_REAR_AXLE_LOAD, TOW_WHEELBASE,
    TRAILER_LEVEL_BALL_HEIGHT, TRAILER_LOW_POINTS_HEIGHT, TRAILER_LOW_POINTS_STATION, TRAILER_TRACK,
};
use crate::rig::{Gripping, KEEL, LowPoint, Ramp, Run, Setup};

/// A value and the position where it occurs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Peak<Q> {
    /// The value.
    pub value: Q,
    /// The trailer's rearmost hub past the first break.
    pub at: Length,
}

/// What one axle goes through.
#[derive(Debug, Clone, PartialEq)]
pub struct AxlePeaks {
    /// Its greatest load.
    pub greatest: Peak<Weight>,
    /// Its least load.
    pub least: Peak<Weight>,
    /// The farthest that its wheels hang clear.
    pub hang: Peak<Length>,
    /// Where they hang, from and to.
    pub hangs: Vec<(Length, Length)>,
    /// The greatest load of one of its tires.
    pub tire: Known<Peak<Weight>>,
}

/// What holds the rig at its worst.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Friction {
    /// The greatest friction needed.
    Needed(Peak<Share>),
    /// The gripping axle is unloaded there and holds nothing.
    HoldsNothing(Length),
}

/// The worst moments of one crossing.
#[derive(Debug, Clone, PartialEq)]
pub struct Peaks {
    /// By axle.
    pub axles: PerAxle<AxlePeaks>,
    /// The greatest tongue weight.
    pub tongue_greatest: Peak<Weight>,
    /// The least tongue weight; negative lifts the tow vehicle.
    pub tongue_least: Peak<Weight>,
    /// The greatest pull aft on the tow vehicle.
    pub pull: Peak<Weight>,
    /// The least that either axle of the parked tow vehicle bears on the ground with; negative lifts it.
    pub tow_axle_least: Option<Peak<Weight>>,
    /// Friction for the drive wheels as they start to pull the rig out.
    pub drive: Known<Friction>,
    /// Friction for the drive wheels as they pull it out at a steady speed.
    pub steady: Known<Friction>,
    /// Friction for the parking brake.
    pub parked: Known<Friction>,
    /// The least clearance of each of the [`ramp_points`].
    pub clearances: Vec<Known<Peak<Length>>>,
    /// The least distance between bow and tow vehicle's body.
    pub bow: Known<Peak<Length>>,
    /// That distance in the sharpest turn on the level, where the policy states one.
    pub bow_in_turn: Option<Length>,
    /// Whether the ball is past every break where the profile ends.
    pub ball_is_past: bool,
    /// How much longer the profile must be for the whole tow vehicle to be past every break; `None` where it is.
    pub lacks: Option<Length>,
}

/// One crossing of one ramp in one case.
#[derive(Debug, Clone, PartialEq)]
pub struct RampLoads {
    /// The ramp.
    pub ramp: usize,
    /// The case.
    pub case: usize,
    /// Its worst moments.
    pub peaks: Known<Result<Peaks, Stranded>>,
}

impl RampLoads {
    /// How far past the first break of its ramp the water begins.
    pub fn waters_edge(&self, setup: &Setup) -> Option<Length> {
        waters_edge(setup.ramps.get(self.ramp)?)
    }
}

impl Peaks {
    /// The name of every point that may ground, with its least clearance.
    pub fn points<'s, 'p>(
        &'p self,
        setup: &'s Setup,
    ) -> impl Iterator<Item = (&'s str, &'p Known<Peak<Length>>)> {
        ramp_points(setup).zip(&self.clearances)
    }
}

/// One position of a crossing.
#[derive(Debug)]
pub struct Moment<'a> {
    /// The rig there.
    pub instant: &'a Instant,
    /// What the drive wheels must hold as they start to pull the rig out.
    pub drive: Option<Hold>,
    /// What they must hold at a steady speed.
    pub steady: Option<Hold>,
    /// What the parking brake must hold.
    pub parked: Option<Hold>,
    /// The clearance of each of the [`ramp_points`].
    pub clearances: &'a [Known<Length>],
    /// Between bow and tow vehicle's body.
    pub bow: Option<Length>,
}

impl Moment<'_> {
    /// The least clearance of all low points.
    pub fn least_clearance(&self) -> Option<Length> {
        self.clearances.iter().filter_map(|clearance| clearance.as_ref().ok()).copied().reduce(Length::min)
    }
}

/// Every listed low point: the trailer's, the boat's, the tow vehicle's.
fn low_points(setup: &Setup) -> impl Iterator<Item = &LowPoint> {
    let (trailer, boat) = (&setup.trailer.low_points, &setup.boat.low_points);
    trailer.iter().chain(boat).chain(&setup.tow.low_points)
}

/// The name of every point that may ground: the low points and the keel, which is always one.
pub fn ramp_points(setup: &Setup) -> impl Iterator<Item = &str> {
    low_points(setup).map(|point| point.name.as_deref().unwrap_or_default()).chain([KEEL])
}

/// What is missing where no low point is listed.
pub(in crate::fit) fn no_low_points<T>() -> Known<T> {
    known(None, BOAT_LOW_POINTS_HEIGHT.of(0))
}

/// How far past the first break the water begins.
pub fn waters_edge(ramp: &Ramp) -> Option<Length> {
    if ramp.water_from_top.is_some() {
        return ramp.water_from_top;
    }
    let level = ramp.water_level?;
    let (mut x, mut z) = (Length::default(), Length::default());
    for run in &ramp.profile {
        let (length, grade) = (run.length?, run.grade?.si());
        if grade > 0.0 && z - length * grade <= level {
            return Some(x + (z - level) / grade);
        }
        x += length;
        z -= length * grade;
    }
    None
}

/// The grade of a ramp at the water's edge, of its last run where the file does not say where the water is; none is an
/// unknown ramp.
///
/// # Errors
/// The key that is missing.
pub(in crate::fit) fn grade_at_water(setup: &Setup, ramp: Option<usize>) -> Known<Slope> {
    let Some((ramp, runs)) = ramp.and_then(|ramp| Some((ramp, setup.ramps.get(ramp)?))) else {
        return Err(Missing::key(RAMPS_PROFILE_GRADE.at([0, 0])));
    };
    let profile = &runs.profile;
    let mut end = Some(Length::default());
    let reaches = |run: &Run| {
        end = end.zip(run.length).map(|(end, length)| end + length);
        end.zip(waters_edge(runs)).is_some_and(|(end, edge)| end > edge)
    };
    let run = profile.iter().position(reaches).unwrap_or(profile.len().saturating_sub(1));
    known(profile.get(run).and_then(|run| run.grade), RAMPS_PROFILE_GRADE.at([ramp, run]))
}

/// What may ground and is followed over the ramp.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Followed {
    Trailer(FramePoint),
    /// The keel, from its forward end to its aft end.
    Keel([FramePoint; 2]),
    Tow {
        aft: Length,
        up: Length,
    },
}

/// The tow vehicle as its weight bears on a ramp.
#[derive(Debug, Clone, Copy, PartialEq)]
struct TowBody {
    weight: Weight,
    /// Its centre of gravity ahead of the rear axle, and above the contact line.
    ahead: Length,
    up: Length,
    drive: Grip,
    parked: Grip,
}

/// All that a crossing needs, known.
#[derive(Debug, PartialEq)]
pub(in crate::fit) struct Crossing {
    tow: TowShape,
    hitch: Option<HitchSpring>,
    body: Body,
    wheels: Undercarriage,
    terrain: Terrain,
    end: Length,
    tow_body: Known<TowBody>,
    drive: Known<()>,
    points: Vec<Known<Followed>>,
    bow: Known<(FramePoint, Length)>,
    bow_in_turn: Option<Length>,
    track: Option<Length>,
    tire_counts: PerAxle<f64>,
}

impl Model<'_> {
    /// Backs the rig over a ramp in a case and gathers its worst moments.
    ///
    /// # Errors
    /// The keys that are missing; inside, where the trailer does not rest on its wheels.
    pub fn peaks(&self, ramp: usize, case: usize) -> Known<Result<Peaks, Stranded>> {
        Ok(self.crossing(ramp, case)?.and_then(|crossing| crossing.worst_moments()))
    }

    /// The same; `visit` sees, in order, positions a step apart, both sides of every event and every worst moment.
    ///
    /// The worst moments do not depend on the step.
    ///
    /// # Errors
    /// As [`Model::peaks`].
    pub fn cross(
        &self,
        ramp: usize,
        case: usize,
        step: Length,
        visit: &mut dyn FnMut(&Moment<'_>),
    ) -> Known<Result<Peaks, Stranded>> {
        Ok(self.crossing(ramp, case)?.and_then(|crossing| crossing.run(step, visit)))
    }

    pub(in crate::fit) fn crossing(&self, ramp: usize, case: usize) -> Known<Result<Crossing, Stranded>> {
        let setup = self.proposed();
        let (terrain, end) = ground(&setup.ramps[ramp], ramp)?;
        let shape = tow_shape(setup);
        let rolling = both(self.undercarriage().clone(), both(self.body(&setup.cases[case]), shape));
        let (wheels, (body, tow)) = rolling?;
        let stranded = |why| Stranded { position: Length::default(), why };
        let wheels = match wheels {
            Ok(wheels) => wheels,
            Err(why) => return Ok(Err(stranded(why))),
        };
        let hitch = match hitch_spring(setup, body, &wheels)? {
            Ok(hitch) => hitch,
            Err(why) => return Ok(Err(stranded(why))),
        };
        let bow = bow(setup);
        let tires = setup.trailer.axles.iter().map(|axle| f64::from(axle.tires.count.unwrap_or(2)));
        Ok(Ok(Crossing {
            tow,
            hitch,
            body,
            wheels,
            terrain,
            end,
            tow_body: tow_body(setup),
            drive: known(setup.tow.driven, TOW_DRIVEN.key()).map(|_| ()),
            points: followed(setup),
            bow_in_turn: bow.as_ref().ok().and_then(|bow| bow_in_turn(*bow, tow.overhang, setup)),
            bow,
            track: setup.trailer.track,
            tire_counts: tires.collect(),
        }))
    }
}

impl Crossing {
    /// All that ball and trailer wheels carry.
    pub fn body(&self) -> Body {
        self.body
    }

    /// The worst moments; positions beside the events are not wanted.
    pub fn worst_moments(&self) -> Result<Peaks, Stranded> {
        self.run(Length::from_si(f64::INFINITY), &mut |_| {})
    }

    fn convoy(&self) -> Convoy<'_> {
        Convoy { tow: self.tow, hitch: self.hitch, body: self.body, wheels: &self.wheels }
    }

    fn run(&self, step: Length, visit: &mut dyn FnMut(&Moment<'_>)) -> Result<Peaks, Stranded> {
        let (mut first, mut last) = (None, None);
        let mut hanging: PerAxle<Hanging> = self.tire_counts.iter().map(|_| Hanging::default()).collect();
        let follow = |instant: &Instant, values: &mut Vec<f64>| self.follow(instant, values);
        let greatest = traverse(&self.convoy(), &self.terrain, self.end, step, follow, |instant| {
            first.get_or_insert_with(|| instant.clone());
            last = Some(instant.clone());
            for (hanging, force) in hanging.iter_mut().zip(&instant.stance.spring_forces) {
                hanging.follow(force.si() <= 0.0, instant.position);
            }
            self.show(instant, visit);
        })?;
        let hangs = hanging.into_iter().map(Hanging::finish);
        let nowhere = Stranded { position: Length::default(), why: Unsettled::NoSupport };
        let (first, last) = first.zip(last).ok_or(nowhere)?;
        let mut peaks = self.peaks(greatest, hangs);
        self.passed_before(&first, &mut peaks.clearances);
        if let Some(bend) = self.terrain.last_bend() {
            peaks.ball_is_past = last.ball.x >= bend;
            peaks.lacks = (last.front.at.x < bend).then(|| self.lacks(bend, &last));
        }
        Ok(peaks)
    }

    /// How much farther the trailer must go until the tow vehicle's front axle is past the last break. Where the trailer
    /// does not rest on its wheels there, as far as the tow vehicle has to go.
    fn lacks(&self, bend: Length, last: &Instant) -> Length {
        let rear_axle = bend + self.tow.wheelbase;
        let past = self.convoy().at(&self.terrain, rear_axle, last.stance.pitch);
        past.map_or(rear_axle - last.rear.at.x, |past| past.position - last.position)
    }

    fn show(&self, instant: &Instant, visit: &mut dyn FnMut(&Moment<'_>)) {
        let clearance = |point: &Known<Followed>| {
            let point = point.as_ref().map_err(Clone::clone)?;
            Ok(self.clearance(instant, *point))
        };
        let clearances: Vec<Known<Length>> = self.points.iter().map(clearance).collect();
        let [drive, steady, parked] = self.holds(instant);
        visit(&Moment { instant, drive, steady, parked, clearances: &clearances, bow: self.bow(instant) });
    }

    /// Adds everything whose greatest is a worst moment, in the order in which [`Self::peaks`] takes it; what is worst
    /// where it is least is added with the other sign. What is not known is left out.
    fn follow(&self, instant: &Instant, values: &mut Vec<f64>) {
        let stance = &instant.stance;
        for (load, hang) in stance.axle_loads.iter().zip(&stance.hang) {
            values.extend([load.si(), -load.si(), hang.si()]);
        }
        values.extend(self.tire_loads(instant).iter().flatten().map(|load| load.si()));
        values.extend([stance.tongue_weight.si(), -stance.tongue_weight.si(), stance.pull.si()]);
        let holds = self.holds(instant);
        for hold in holds.into_iter().flatten() {
            values.push(hold.friction.map_or(HOLDS_NOTHING, Quantity::si));
        }
        let [.., parked] = holds;
        values.extend(parked.map(|hold| -hold.front.min(hold.rear).si()));
        let points = self.points.iter().filter_map(|point| point.as_ref().ok());
        values.extend(points.map(|point| -self.clearance(instant, *point).si()));
        values.extend(self.bow(instant).map(|bow| -bow.si()));
    }

    /// What was followed, each greatest in its place.
    fn peaks(&self, greatest: Vec<Greatest>, hangs: impl Iterator<Item = Vec<(Length, Length)>>) -> Peaks {
        let mut found = greatest.into_iter();
        // Whatever is taken has been followed.
        let mut next = || found.next().unwrap_or(Greatest { value: 0.0, at: Length::default() });
        let axles = hangs.map(|hangs| AxlePeaks {
            greatest: most(next()),
            least: least(next()),
            hang: most(next()),
            hangs,
            tire: known(None, TRAILER_TRACK.key()),
        });
        let mut axles: PerAxle<AxlePeaks> = axles.collect();
        if self.tire_share(self.body.weight).is_some() {
            for axle in &mut axles {
                axle.tire = Ok(most(next()));
            }
        }
        let (tongue_greatest, tongue_least, pull) = (most(next()), least(next()), most(next()));
        let tow_body = self.tow_body.as_ref().map(|_| ()).map_err(Clone::clone);
        let driven = both(tow_body.clone(), self.drive.clone());
        let drive = driven.clone().map(|_| friction(next()));
        let steady = driven.map(|_| friction(next()));
        let parked = tow_body.clone().map(|()| friction(next()));
        Peaks {
            axles,
            tongue_greatest,
            tongue_least,
            pull,
            drive,
            steady,
            parked,
            tow_axle_least: tow_body.ok().map(|()| least(next())),
            clearances: self
                .points
                .iter()
                .map(|point| point.as_ref().map(|_| least(next())).map_err(Clone::clone))
                .collect(),
            bow: self.bow.as_ref().map(|_| least(next())).map_err(Clone::clone),
            bow_in_turn: self.bow_in_turn,
            ball_is_past: true,
            lacks: None,
        }
    }

    /// What the drive wheels must hold as they start and at a steady speed, and what the parking brake must hold.
    fn holds(&self, instant: &Instant) -> [Option<Hold>; 3] {
        let Ok(tow) = &self.tow_body else { return [None; 3] };
        let hold = |grip, motion| tow::hold(&on_ramp(instant, tow, self.body, motion), grip);
        let driven = |motion| self.drive.is_ok().then(|| hold(tow.drive, motion));
        [driven(Motion::Start), driven(Motion::Steady), Some(hold(tow.parked, Motion::Parked))]
    }

    fn clearance(&self, instant: &Instant, point: Followed) -> Length {
        let at = match point {
            Followed::Trailer(point) => instant.trailer_point(point),
            Followed::Keel(ends) => {
                return self.terrain.least_below(ends.map(|end| instant.trailer_point(end)));
            }
            Followed::Tow { aft, up } => instant.tow_point(aft, up),
        };
        at.z - self.terrain.height(at.x)
    }

    /// Between bow and tow vehicle's body, along the tow vehicle's axis.
    fn bow(&self, instant: &Instant) -> Option<Length> {
        let (bow, body) = self.bow.as_ref().ok()?;
        Some(instant.aft_of_rear_axle(instant.trailer_point(*bow)) - *body)
    }

    /// What lay under the trailer's low points before the first position: a point behind the last axle has then
    /// passed over ground that no wheel has reached, the rig still on the level.
    fn passed_before(&self, first: &Instant, least: &mut [Known<Peak<Length>>]) {
        for (least, point) in least.iter_mut().zip(&self.points) {
            let (Ok(least), Ok(point)) = (least, point) else { continue };
            let at = match point {
                Followed::Trailer(point) => first.trailer_point(*point),
                // All of it as low as its lower end.
                Followed::Keel(ends) => {
                    let [forward, aft] = ends.map(|end| first.trailer_point(end));
                    GroundPoint { z: aft.z.min(forward.z), ..aft }
                }
                Followed::Tow { .. } => continue,
            };
            let top = self.terrain.highest_up_to(at.x);
            let clearance = at.z - top.z;
            if clearance < least.value {
                *least = Peak { value: clearance, at: first.position - (at.x - top.x) };
            }
        }
    }

    /// The share of an axle's load that its heavier side carries, by all that the axles carry; none without a track
    /// where the load is off the centreline.
    fn tire_share(&self, on_axles: Weight) -> Option<Share> {
        let body = self.body;
        let offset = sides::effective_offset(body.weight, body.at.y, on_axles);
        if offset.si() == 0.0 {
            return Some(Share::from_si(0.5));
        }
        Some(sides::heavier_side(offset, self.track?))
    }

    /// The heaviest tire of each axle.
    fn tire_loads(&self, instant: &Instant) -> Option<PerAxle<Weight>> {
        let share = self.tire_share(instant.stance.on_axles())?;
        let axles = instant.stance.axle_loads.iter().zip(&self.tire_counts);
        Some(axles.map(|(load, count)| *load * share * 2.0 / *count).collect())
    }
}

/// An unloaded axle holds nothing, whatever the friction.
const HOLDS_NOTHING: f64 = f64::INFINITY;

fn most<Q: Quantity>(greatest: Greatest) -> Peak<Q> {
    Peak { value: Q::from_si(greatest.value), at: greatest.at }
}

/// The least of what was followed with the other sign.
fn least<Q: Quantity>(greatest: Greatest) -> Peak<Q> {
    Peak { value: Q::from_si(0.0 - greatest.value), at: greatest.at }
}

fn friction(greatest: Greatest) -> Friction {
    if greatest.value == HOLDS_NOTHING {
        Friction::HoldsNothing(greatest.at)
    } else {
        Friction::Needed(most(greatest))
    }
}

/// Where the wheels of an axle hang.
#[derive(Default)]
struct Hanging {
    from: Option<Length>,
    hangs: Vec<(Length, Length)>,
    last: Length,
}

impl Hanging {
    fn follow(&mut self, hangs: bool, at: Length) {
        if hangs {
            self.from.get_or_insert(at);
        } else if let Some(from) = self.from.take() {
            self.hangs.push((from, at));
        }
        self.last = at;
    }

    fn finish(mut self) -> Vec<(Length, Length)> {
        let last = self.last;
        self.hangs.extend(self.from.map(|from| (from, last)));
        self.hangs
    }
}

/// The ramp's ground and where it ends.
pub(in crate::fit) fn ground(ramp: &Ramp, index: usize) -> Known<(Terrain, Length)> {
    let runs = ramp.profile.iter().enumerate().map(|(i, run)| {
        let at = [index, i];
        let length = known(run.length, RAMPS_PROFILE_LENGTH.at(at));
        let grade = known(run.grade, RAMPS_PROFILE_GRADE.at(at));
        both(length, grade).map(|(length, grade)| RampRun { length, grade })
    });
    let runs: Vec<RampRun> = each(runs)?;
    let end = runs.iter().map(|run| run.length).sum();
    let terrain = Terrain::ramp(&runs, ramp.ease.unwrap_or_default());
    // A valid rig's ramp is a terrain.
    terrain.map(|terrain| (terrain, end)).or_else(|_| known(None, RAMPS_EASE.of(index)))
}

pub(in crate::fit) fn tow_shape(setup: &Setup) -> Known<TowShape> {
    let lengths = both(need(setup, TOW_WHEELBASE), need(setup, TOW_BALL_OVERHANG));
    let ((wheelbase, overhang), ball_height) = both(lengths, need(setup, TOW_BALL_HEIGHT))?;
    Ok(TowShape { wheelbase, overhang, ball_height })
}

fn tow_body(setup: &Setup) -> Known<TowBody> {
    let tow = &setup.tow;
    let loads = both(
        known(tow.front_axle_load, TOW_FRONT_AXLE_LOAD.key()),
        known(tow.rear_axle_load, TOW_REAR_AXLE_LOAD.key()),
    );
    let ((front, rear), wheelbase) = both(loads, known(tow.wheelbase, TOW_WHEELBASE.key()))?;
    let up = known(tow.cg_height, TOW_CG_HEIGHT.key())?;
    let grip = |gripping: Option<Gripping>| match gripping {
        Some(Gripping::Front) => Grip::Front,
        Some(Gripping::All) => Grip::Both,
        Some(Gripping::Rear) | None => Grip::Rear,
    };
    let weight = front + rear;
    // a = F0 b / (F0 + R0)
    let ahead = wheelbase * (front / weight);
    Ok(TowBody { weight, ahead, up, drive: grip(tow.driven), parked: grip(tow.parking_brake) })
}

fn on_ramp(instant: &Instant, tow: &TowBody, trailer: Body, motion: Motion) -> OnRamp {
    OnRamp {
        weight: tow.weight,
        centre: instant.tow_point(-tow.ahead, tow.up),
        front: instant.front,
        rear: instant.rear,
        ball: instant.ball,
        at_ball: tow::at_ball(trailer, &instant.stance, instant.ball, motion),
        motion,
    }
}

/// Every low point as it is followed, in the order of [`low_points`].
fn followed(setup: &Setup) -> Vec<Known<Followed>> {
    let level = need(setup, TRAILER_LEVEL_BALL_HEIGHT);
    let drawn_in = setup.shift.tongue.unwrap_or_default();
    let trailer = setup.trailer.low_points.iter().enumerate().map(|(i, point)| {
        let station = known(point.station, TRAILER_LOW_POINTS_STATION.of(i));
        let height = known(point.height, TRAILER_LOW_POINTS_HEIGHT.of(i));
        let ((station, height), level) = both(both(station, height), level.clone())?;
        let (x, z) = (station - drawn_in, height - level);
        Ok(Followed::Trailer(FramePoint { x, z, y: Length::default() }))
    });
    let boat = setup.boat.low_points.iter().enumerate().map(|(i, point)| {
        let station = known(point.station, BOAT_LOW_POINTS_STATION.of(i));
        let height = known(point.height, BOAT_LOW_POINTS_HEIGHT.of(i));
        let ((station, height), placement) = both(both(station, height), Placement::of(setup))?;
        Ok(Followed::Trailer(placed(placement, station, height)))
    });
    let tow = setup.tow.low_points.iter().enumerate().map(|(i, point)| {
        let station = known(point.station, TOW_LOW_POINTS_STATION.of(i));
        let height = known(point.height, TOW_LOW_POINTS_HEIGHT.of(i));
        both(station, height).map(|(aft, up)| Followed::Tow { aft, up })
    });
    trailer.chain(boat).chain(tow).chain([keel(setup)]).collect()
}

/// The keel from the transom to where it stops being straight, or to under the bow eye where that is not known.
fn keel(setup: &Setup) -> Known<Followed> {
    let forward = setup.boat.hull.straight_run.or(setup.boat.bow_eye.station);
    let forward = known(forward, BOAT_BOW_EYE_STATION.key());
    let (placement, forward) = both(Placement::of(setup), forward)?;
    let at = |station| placed(placement, station, Length::default());
    Ok(Followed::Keel([at(forward), at(Length::default())]))
}

/// Where each of the [`ramp_points`] lies at a moment; of the keel its lower end.
pub(in crate::fit) fn points_at(setup: &Setup, instant: &Instant) -> Vec<Known<GroundPoint>> {
    let lies = |followed| match followed {
        Followed::Trailer(at) => instant.trailer_point(at),
        Followed::Tow { aft, up } => instant.tow_point(aft, up),
        Followed::Keel(ends) => {
            let [forward, aft] = ends.map(|end| instant.trailer_point(end));
            if forward.z < aft.z { forward } else { aft }
        }
    };
    followed(setup).into_iter().map(|followed| followed.map(lies)).collect()
}

/// Where the bow's tip lies at a moment, where its distance to the tow vehicle's body can be known.
pub(in crate::fit) fn bow_at(setup: &Setup, instant: &Instant) -> Known<GroundPoint> {
    bow(setup).map(|(tip, _)| instant.trailer_point(tip))
}

/// The clearance of one of the [`ramp_points`] on the level road.
pub(in crate::fit) fn clearance_on_level(
    setup: &Setup,
    level: Known<&Carried>,
    point: usize,
) -> Known<Length> {
    let point = followed(setup).into_iter().nth(point).unwrap_or_else(no_low_points);
    if let Ok(Followed::Tow { up, .. }) = point {
        return Ok(up);
    }
    let ((point, level), ball) = both(both(point, level), need(setup, TOW_BALL_HEIGHT))?;
    let (sin, cos) = level.stance.pitch.si().sin_cos();
    let height = |at: FramePoint| ball - at.x * sin + at.z * cos;
    Ok(match point {
        Followed::Trailer(at) => height(at),
        Followed::Keel([forward, aft]) => height(forward).min(height(aft)),
        Followed::Tow { up, .. } => up,
    })
}

/// The distance between bow and tow vehicle's body on the level road, straight and in the turn that the policy states.
pub(in crate::fit) fn bow_on_level(setup: &Setup, level: Known<&Carried>) -> Known<Length> {
    let overhang = need(setup, TOW_BALL_OVERHANG);
    let ((ends, level), overhang) = both(both(bow(setup), level), overhang)?;
    let (tip, body) = ends;
    let (sin, cos) = level.stance.pitch.si().sin_cos();
    // o − body + X of the tip behind the ball
    let straight = overhang - body + tip.x * cos + tip.z * sin;
    Ok(bow_in_turn(ends, overhang, setup).map_or(straight, |turn| turn.min(straight)))
}

fn placed(placement: Placement, station: Length, height: Length) -> FramePoint {
    placement.frame(BoatPoint { station, height, side: Length::default() })
}

/// The bow's tip, and the rear of the tow vehicle's body behind its rear axle.
fn bow(setup: &Setup) -> Known<(FramePoint, Length)> {
    let boat = &setup.boat;
    let eye = both(
        known(boat.bow_eye.station, BOAT_BOW_EYE_STATION.key()),
        known(boat.bow_eye.height, BOAT_BOW_EYE_HEIGHT.key()),
    );
    let ends = both(known(boat.bow_overhang, BOAT_BOW_OVERHANG.key()), need(setup, TOW_BODY_AFT_STATION));
    let ((eye, ends), placement) = both(both(eye, ends), Placement::of(setup))?;
    let ((station, height), (overhang, body)) = (eye, ends);
    Ok((placed(placement, station + overhang, height), body))
}

/// Between bow and tow vehicle's body in the sharpest turn on the level, where the policy states one.
fn bow_in_turn((bow, body): (FramePoint, Length), overhang: Length, setup: &Setup) -> Option<Length> {
    // The bow swings about the ball: o − body + x cos θ
    Some(overhang - body + bow.x * setup.policy.turn?.si().cos())
}

/// How the hitch gives under this body on these wheels; none for a stiff one.
pub(in crate::fit) fn hitch_spring(
    setup: &Setup,
    body: Body,
    wheels: &Undercarriage,
) -> Known<Result<Option<HitchSpring>, Unsettled>> {
    let Some(rate) = setup.tow.hitch_rate else { return Ok(Ok(None)) };
    let tongue = level_tongue(body, wheels, ball_on_level(setup)?);
    Ok(tongue.map(|level_tongue_weight| Some(HitchSpring { rate, level_tongue_weight })))
}

/// Tongue weight of a body on the level.
fn level_tongue(body: Body, wheels: &Undercarriage, ball: GroundPoint) -> Result<Weight, Unsettled> {
    let stance = settle(body, wheels, ball, &Terrain::level(), Angle::default())?;
    Ok(stance.tongue_weight)
}
