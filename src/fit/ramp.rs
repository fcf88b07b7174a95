//! A rig's loads over a ramp: what the traverse finds, gathered into peaks.

use super::known::{Known, both, each, need, need_of};
use super::loads::{Model, Trial, ball_on_level};
use super::placement::{BoatPoint, Placement};
use crate::mechanics::terrain::RampRun;
use crate::mechanics::tow::{self, Grip, Hold, OnRamp};
use crate::mechanics::traverse::{Convoy, HitchSpring, Instant, Stranded, TowShape, traverse};
use crate::mechanics::{
    Body, FramePoint, GroundPoint, PerAxle, Terrain, Undercarriage, Unsettled, settle, sides,
};
use crate::quantity::{Angle, Length, Quantity, Share, Weight};
use crate::rig::{Gripping, LowPoint, Ramp, Setup};

/// How far the tow vehicle goes between two looks, unless asked otherwise: half an inch.
pub const STEP: f64 = 0.0127;

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
    /// Friction for the drive wheels.
    pub drive: Known<Friction>,
    /// Friction for the parking brake.
    pub parked: Known<Friction>,
    /// The least clearance of each low point, in the order of [`low_points`].
    pub clearances: Vec<Known<Peak<Length>>>,
    /// The least distance between bow and tow vehicle's body.
    pub bow: Known<Peak<Length>>,
    /// That distance in the sharpest turn on the level, where the policy states one.
    pub bow_in_turn: Option<Length>,
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
    /// Every low point with its least clearance.
    pub fn low_points<'s, 'p>(
        &'p self,
        setup: &'s Setup,
    ) -> impl Iterator<Item = (&'s LowPoint, &'p Known<Peak<Length>>)> {
        low_points(setup).zip(&self.clearances)
    }
}

/// One position of a crossing.
#[derive(Debug)]
pub struct Moment<'a> {
    /// The rig there.
    pub instant: &'a Instant,
    /// What the drive wheels must hold.
    pub drive: Option<Hold>,
    /// What the parking brake must hold.
    pub parked: Option<Hold>,
    /// The clearance of each low point, in the order of [`low_points`].
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

/// Every low point with the part it belongs to: the trailer's, the boat's, the tow vehicle's.
pub fn low_points(setup: &Setup) -> impl Iterator<Item = &LowPoint> {
    let (trailer, boat) = (&setup.trailer.low_points, &setup.boat.low_points);
    trailer.iter().chain(boat).chain(&setup.tow.low_points)
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

/// A point that is followed over the ramp.
#[derive(Debug, Clone, Copy)]
enum Followed {
    Trailer(FramePoint),
    Tow { aft: Length, up: Length },
}

/// The tow vehicle as its weight bears on a ramp.
#[derive(Debug, Clone, Copy)]
struct TowBody {
    weight: Weight,
    /// Its centre of gravity ahead of the rear axle, and above the contact line.
    ahead: Length,
    up: Length,
    drive: Grip,
    parked: Grip,
}

/// All that a crossing needs, known.
struct Crossing<'a> {
    convoy: Convoy<'a>,
    terrain: Terrain,
    end: Length,
    tow_body: Known<TowBody>,
    drive: Known<()>,
    points: Vec<Known<Followed>>,
    bow: Known<(FramePoint, Length)>,
    track: Option<Length>,
    tire_counts: PerAxle<f64>,
}

impl Model<'_> {
    /// Backs the rig over a ramp in a case and gathers its worst moments; `visit` sees every position.
    ///
    /// # Errors
    /// The keys that are missing; inside, where the trailer does not rest on its wheels.
    pub fn cross(
        &self,
        ramp: usize,
        case: usize,
        trial: Trial,
        step: Length,
        visit: &mut dyn FnMut(&Moment<'_>),
    ) -> Known<Result<Peaks, Stranded>> {
        let setup = self.proposed();
        let (terrain, end) = ground(&setup.ramps[ramp], ramp)?;
        let shape = tow_shape(setup);
        let rolling = both(self.wheels(), both(self.whole(case, trial), shape));
        let (wheels, (body, tow)) = rolling?;
        let stranded = |why| Stranded { position: Length::default(), why };
        let wheels = match wheels {
            Ok(wheels) => wheels,
            Err(why) => return Ok(Err(stranded(why))),
        };
        let hitch = match setup.tow.hitch_rate {
            None => None,
            Some(rate) => match level_tongue(body, &wheels, ball_on_level(setup)?) {
                Ok(level_tongue_weight) => {
                    Some(HitchSpring { rate: rate * self.rates(), level_tongue_weight })
                }
                Err(why) => return Ok(Err(stranded(why))),
            },
        };
        let crossing = Crossing {
            convoy: Convoy { tow, hitch, body, wheels: &wheels },
            terrain,
            end,
            tow_body: tow_body(setup),
            drive: need(setup.tow.driven, "tow.driven").map(|_| ()),
            points: followed(setup, trial),
            bow: bow(setup, trial),
            track: setup.trailer.track,
            tire_counts: setup
                .trailer
                .axles
                .iter()
                .map(|axle| f64::from(axle.tires.count.unwrap_or(2)))
                .collect(),
        };
        let peaks = crossing.run(step, visit);
        Ok(peaks.map(|peaks| Peaks { bow_in_turn: crossing.bow_in_turn(setup), ..peaks }))
    }
}

impl Crossing<'_> {
    fn run(&self, step: Length, visit: &mut dyn FnMut(&Moment<'_>)) -> Result<Peaks, Stranded> {
        let mut gathered: Option<Gathered> = None;
        let mut clearances = Vec::with_capacity(self.points.len());
        traverse(&self.convoy, &self.terrain, self.end, step, |instant| {
            clearances.clear();
            clearances.extend(self.points.iter().map(|point| self.clearance(instant, point)));
            let hold = |grip: fn(&TowBody) -> Grip| {
                let tow = self.tow_body.as_ref().ok()?;
                Some(tow::hold(&on_ramp(instant, tow), grip(tow)))
            };
            let bow = self.bow.as_ref().ok();
            let moment = Moment {
                instant,
                drive: self.drive.as_ref().ok().and_then(|()| hold(|tow| tow.drive)),
                parked: hold(|tow| tow.parked),
                clearances: &clearances,
                bow: bow.map(|(bow, body)| instant.aft_of_rear_axle(instant.trailer_point(*bow)) - *body),
            };
            let tires = self.tire_loads(instant);
            if let Some(gathered) = &mut gathered {
                gathered.add(&moment, tires.as_ref());
            } else {
                let mut first = Gathered::first(&moment, tires.as_ref());
                self.passed_before(instant, &mut first.clearances);
                gathered = Some(first);
            }
            visit(&moment);
        })?;
        let nowhere = Stranded { position: Length::default(), why: Unsettled::NoSupport };
        Ok(gathered.ok_or(nowhere)?.finish(self))
    }

    fn clearance(&self, instant: &Instant, point: &Known<Followed>) -> Known<Length> {
        let at = match point.as_ref().map_err(Clone::clone)? {
            Followed::Trailer(point) => instant.trailer_point(*point),
            Followed::Tow { aft, up } => instant.tow_point(*aft, *up),
        };
        Ok(at.z - self.terrain.height(at.x))
    }

    /// What lay under the trailer's low points before the first position: a point behind the last axle has then
    /// passed over ground that no wheel has reached, the rig still on the level.
    fn passed_before(&self, first: &Instant, least: &mut [Known<Peak<Length>>]) {
        for (least, point) in least.iter_mut().zip(&self.points) {
            let (Ok(least), Ok(Followed::Trailer(point))) = (least, point) else { continue };
            let at = first.trailer_point(*point);
            let top = self.terrain.highest_up_to(at.x);
            less(least, at.z - top.z, first.position - (at.x - top.x));
        }
    }

    /// Between bow and tow vehicle's body in the sharpest turn on the level.
    fn bow_in_turn(&self, setup: &Setup) -> Option<Length> {
        let (bow, body) = self.bow.as_ref().ok()?;
        // The bow swings about the ball: o − body + x cos θ
        Some(self.convoy.tow.overhang - *body + bow.x * setup.policy.turn?.si().cos())
    }

    /// The heaviest tire of each axle; none without a track where the load is off the centreline.
    fn tire_loads(&self, instant: &Instant) -> Option<PerAxle<Weight>> {
        let stance = &instant.stance;
        let body = self.convoy.body;
        let offset = sides::effective_offset(body.weight, body.at.y, stance.on_axles());
        let share = match (offset.si() == 0.0, self.track) {
            (true, _) => Share::from_si(0.5),
            (false, track) => sides::heavier_side(offset, track?),
        };
        let axles = stance.axle_loads.iter().zip(&self.tire_counts);
        Some(axles.map(|(load, count)| *load * share * 2.0 / *count).collect())
    }
}

/// Peaks in the making.
struct Gathered {
    axles: PerAxle<GatheredAxle>,
    tongue_greatest: Peak<Weight>,
    tongue_least: Peak<Weight>,
    pull: Peak<Weight>,
    tow_axle_least: Option<Peak<Weight>>,
    drive: Option<Friction>,
    parked: Option<Friction>,
    clearances: Vec<Known<Peak<Length>>>,
    bow: Option<Peak<Length>>,
}

struct GatheredAxle {
    peaks: AxlePeaks,
    hanging_from: Option<Length>,
    last: Length,
}

impl Gathered {
    fn first(moment: &Moment<'_>, tires: Option<&PerAxle<Weight>>) -> Self {
        let stance = &moment.instant.stance;
        let at = moment.instant.position;
        let axles = stance.axle_loads.iter().enumerate().map(|(i, load)| GatheredAxle {
            peaks: AxlePeaks {
                greatest: Peak { value: *load, at },
                least: Peak { value: *load, at },
                hang: Peak { value: Length::default(), at },
                hangs: Vec::new(),
                tire: match tires {
                    Some(tires) => Ok(Peak { value: tires[i], at }),
                    None => need(None, "trailer.track"),
                },
            },
            hanging_from: None,
            last: at,
        });
        let mut gathered = Self {
            axles: axles.collect(),
            tongue_greatest: Peak { value: stance.tongue_weight, at },
            tongue_least: Peak { value: stance.tongue_weight, at },
            pull: Peak { value: stance.pull, at },
            tow_axle_least: moment.parked.map(|hold| Peak { value: hold.front.min(hold.rear), at }),
            drive: None,
            parked: None,
            clearances: moment
                .clearances
                .iter()
                .map(|clearance| clearance.clone().map(|value| Peak { value, at }))
                .collect(),
            bow: moment.bow.map(|value| Peak { value, at }),
        };
        gathered.add(moment, tires);
        gathered
    }

    fn add(&mut self, moment: &Moment<'_>, tires: Option<&PerAxle<Weight>>) {
        let stance = &moment.instant.stance;
        let at = moment.instant.position;
        for (i, axle) in self.axles.iter_mut().enumerate() {
            greater(&mut axle.peaks.greatest, stance.axle_loads[i], at);
            less(&mut axle.peaks.least, stance.axle_loads[i], at);
            greater(&mut axle.peaks.hang, stance.hang[i], at);
            if let (Ok(peak), Some(tires)) = (&mut axle.peaks.tire, tires) {
                greater(peak, tires[i], at);
            }
            axle.follow_hanging(stance.spring_forces[i].si() <= 0.0, at);
        }
        greater(&mut self.tongue_greatest, stance.tongue_weight, at);
        less(&mut self.tongue_least, stance.tongue_weight, at);
        greater(&mut self.pull, stance.pull, at);
        if let (Some(least), Some(hold)) = (&mut self.tow_axle_least, moment.parked) {
            less(least, hold.front.min(hold.rear), at);
        }
        worse_friction(&mut self.drive, moment.drive, at);
        worse_friction(&mut self.parked, moment.parked, at);
        for (least, now) in self.clearances.iter_mut().zip(moment.clearances) {
            if let (Ok(least), Ok(now)) = (least, now) {
                less(least, *now, at);
            }
        }
        if let (Some(least), Some(now)) = (&mut self.bow, moment.bow) {
            less(least, now, at);
        }
    }

    fn finish(self, crossing: &Crossing<'_>) -> Peaks {
        let friction = |friction: Option<Friction>, lacking: Known<()>| {
            let tow = crossing.tow_body.as_ref().map(|_| ()).map_err(Clone::clone);
            // Where nothing is missing every position has its friction.
            both(tow, lacking).map(|_| friction.unwrap_or(Friction::HoldsNothing(Length::default())))
        };
        Peaks {
            axles: self.axles.into_iter().map(GatheredAxle::finish).collect(),
            tongue_greatest: self.tongue_greatest,
            tongue_least: self.tongue_least,
            pull: self.pull,
            tow_axle_least: self.tow_axle_least,
            drive: friction(self.drive, crossing.drive.clone()),
            parked: friction(self.parked, Ok(())),
            clearances: self.clearances,
            bow: match (self.bow, &crossing.bow) {
                (Some(bow), _) => Ok(bow),
                (None, Err(missing)) => Err(missing.clone()),
                (None, Ok(_)) => need(None, "tow.body_aft.station"),
            },
            bow_in_turn: None,
        }
    }
}

impl GatheredAxle {
    fn follow_hanging(&mut self, hangs: bool, at: Length) {
        match (hangs, self.hanging_from) {
            (true, None) => self.hanging_from = Some(at),
            (false, Some(from)) => {
                self.peaks.hangs.push((from, at));
                self.hanging_from = None;
            }
            _ => {}
        }
        self.last = at;
    }

    fn finish(mut self) -> AxlePeaks {
        if let Some(from) = self.hanging_from {
            self.peaks.hangs.push((from, self.last));
        }
        self.peaks
    }
}

/// A value must pass a peak by this share of it to take its place: what rounding leaves on a plateau is no peak.
const SAME: f64 = 1e-9;

fn greater<Q: Quantity>(peak: &mut Peak<Q>, value: Q, at: Length) {
    if passes(value.si(), peak.value.si()) {
        *peak = Peak { value, at };
    }
}

fn less<Q: Quantity>(peak: &mut Peak<Q>, value: Q, at: Length) {
    if passes(-value.si(), -peak.value.si()) {
        *peak = Peak { value, at };
    }
}

fn passes(value: f64, peak: f64) -> bool {
    value - peak > SAME * peak.abs()
}

/// The worse of two frictions: an axle that holds nothing is worst of all, and first told.
fn worse_friction(worst: &mut Option<Friction>, hold: Option<Hold>, at: Length) {
    let Some(hold) = hold else { return };
    *worst = match (*worst, hold.friction) {
        (Some(Friction::HoldsNothing(first)), _) => Some(Friction::HoldsNothing(first)),
        (_, None) => Some(Friction::HoldsNothing(at)),
        (Some(Friction::Needed(peak)), Some(value)) if !passes(value.si(), peak.value.si()) => {
            Some(Friction::Needed(peak))
        }
        (_, Some(value)) => Some(Friction::Needed(Peak { value, at })),
    };
}

/// The ramp's ground and where it ends.
fn ground(ramp: &Ramp, index: usize) -> Known<(Terrain, Length)> {
    let runs = ramp.profile.iter().enumerate().map(|(i, run)| {
        let at = [index, i];
        let missing = |path| super::Missing(vec![crate::rig::Key { path, at }]);
        let length = run.length.ok_or_else(|| missing("ramps.*.profile.*.length"));
        let grade = run.grade.ok_or_else(|| missing("ramps.*.profile.*.grade"));
        both(length, grade).map(|(length, grade)| RampRun { length, grade })
    });
    let runs: Vec<RampRun> = each(runs)?;
    let end = runs.iter().map(|run| run.length).sum();
    let terrain = Terrain::ramp(&runs, ramp.ease.unwrap_or_default());
    // A valid rig's ramp is a terrain.
    terrain.map(|terrain| (terrain, end)).or_else(|_| need_of(None, "ramps.*.ease", index))
}

fn tow_shape(setup: &Setup) -> Known<TowShape> {
    let lengths =
        both(need(setup.tow.wheelbase, "tow.wheelbase"), need(setup.tow.ball_overhang, "tow.ball_overhang"));
    let ((wheelbase, overhang), ball_height) = both(lengths, need(setup.tow.ball_height, "tow.ball_height"))?;
    Ok(TowShape { wheelbase, overhang, ball_height })
}

fn tow_body(setup: &Setup) -> Known<TowBody> {
    let tow = &setup.tow;
    let loads = both(
        need(tow.front_axle_load, "tow.front_axle_load"),
        need(tow.rear_axle_load, "tow.rear_axle_load"),
    );
    let ((front, rear), wheelbase) = both(loads, need(tow.wheelbase, "tow.wheelbase"))?;
    let up = need(tow.cg_height, "tow.cg_height")?;
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

fn on_ramp(instant: &Instant, tow: &TowBody) -> OnRamp {
    OnRamp {
        weight: tow.weight,
        centre: instant.tow_point(-tow.ahead, tow.up),
        front: instant.front,
        rear: instant.rear,
        ball: instant.ball,
        tongue_weight: instant.stance.tongue_weight,
        pull: instant.stance.pull,
    }
}

/// Every low point as it is followed, in the order of [`low_points`].
fn followed(setup: &Setup, trial: Trial) -> Vec<Known<Followed>> {
    let level = need(setup.trailer.level_ball_height, "trailer.level_ball_height");
    let drawn_in = setup.shift.tongue.unwrap_or_default();
    let trailer = setup.trailer.low_points.iter().enumerate().map(|(i, point)| {
        let station = need_of(point.station, "trailer.low_points.*.station", i);
        let height = need_of(point.height, "trailer.low_points.*.height", i);
        let ((station, height), level) = both(both(station, height), level.clone())?;
        let (x, z) = (station - drawn_in, height - level);
        Ok(Followed::Trailer(FramePoint { x, z, y: Length::default() }))
    });
    let boat = setup.boat.low_points.iter().enumerate().map(|(i, point)| {
        let station = need_of(point.station, "boat.low_points.*.station", i);
        let height = need_of(point.height, "boat.low_points.*.height", i);
        let ((station, height), placement) = both(both(station, height), Placement::of(setup))?;
        Ok(Followed::Trailer(placed(placement, station, height, trial)))
    });
    let tow = setup.tow.low_points.iter().enumerate().map(|(i, point)| {
        let station = need_of(point.station, "tow.low_points.*.station", i);
        let height = need_of(point.height, "tow.low_points.*.height", i);
        both(station, height).map(|(aft, up)| Followed::Tow { aft, up })
    });
    trailer.chain(boat).chain(tow).collect()
}

fn placed(placement: Placement, station: Length, height: Length, trial: Trial) -> FramePoint {
    let mut point = placement.frame(BoatPoint { station, height, side: Length::default() });
    point.x += trial.boat_aft;
    point
}

/// The bow's tip, and the rear of the tow vehicle's body behind its rear axle.
fn bow(setup: &Setup, trial: Trial) -> Known<(FramePoint, Length)> {
    let boat = &setup.boat;
    let eye = both(
        need(boat.bow_eye.station, "boat.bow_eye.station"),
        need(boat.bow_eye.height, "boat.bow_eye.height"),
    );
    let ends = both(
        need(boat.bow_overhang, "boat.bow_overhang"),
        need(setup.tow.body_aft.station, "tow.body_aft.station"),
    );
    let ((eye, ends), placement) = both(both(eye, ends), Placement::of(setup))?;
    let ((station, height), (overhang, body)) = (eye, ends);
    Ok((placed(placement, station + overhang, height, trial), body))
}

/// Tongue weight of a body on the level.
fn level_tongue(body: Body, wheels: &Undercarriage, ball: GroundPoint) -> Result<Weight, Unsettled> {
    let stance = settle(body, wheels, ball, &Terrain::level(), Angle::default())?;
    Ok(stance.tongue_weight)
}
