//! Traverse: the whole rig backed over a ramp, and where what it carries is greatest.
//!
//! | symbol | meaning |
//! |---|---|
//! | `b` | tow vehicle's wheelbase |
//! | `o` | ball behind its rear axle, along the line of its contact points |
//! | `h` | ball above that line, normal to it |
//! | `V`, `V0` | tongue weight, and on the level |
//! | `c` | hitch rate: the ball sinks by `(V − V0) / c` |
//!
//! The tow vehicle is a rigid line on its two contact points. Where its rear axle stands sets the other
//! contact, the ball, and so the trailer.
//!
//! Between events (a wheel meets or leaves a break, lifts or lands, a suspension bottoms, an equalizer comes
//! to a stop) everything changes smoothly with the position. Events are found by halving and visited on both sides.
//! Between them the rig is looked at every few centimetres while anything stands near a break, every tenth of a metre
//! while nothing does, and near each event twice more, so that a turn shows as a look from which a value falls both ways;
//! a turn that may be the greatest of all is then closed in on. Once all of it is past the last break nothing changes any
//! more. None of this depends on how far apart the caller wants to see positions.

use super::road::settle::{Stance, Undercarriage, Unsettled, settle};
use super::terrain::{Footing, GroundPoint, Terrain};
use super::{Body, FramePoint};
use crate::numeric::peak;
use crate::numeric::root::{Bracket, halve};
use crate::quantity::{Angle, Length, Quantity, Rate, Weight};

/// The tow vehicle's rear axle goes so far between two looks, in metres, while a wheel is at a break.
const LOOK: f64 = 0.025;
/// The same while every wheel stands on a straight grade. On a long vertical curve looks as far apart miss wheels that lift
/// and land between them.
const FAR_LOOK: f64 = 0.1;
/// An event is found this closely, in metres.
const EVENT_WITHIN: f64 = 1e-7;
/// So far from an event, in metres, a look shows which way everything goes.
const BESIDE_EVENT: f64 = 1e-4;
/// More events than this within one look are no longer told apart.
const MOST_EVENTS: usize = 16;
/// A turn is found this closely, in metres.
const TURN_WITHIN: f64 = 1e-6;
/// A value must pass the greatest by this share of it to take its place: what rounding leaves on a plateau is no peak.
const SAME: f64 = 1e-9;
/// A turn may rise so many times as far above its look as the straight lines through the neighbours do.
const TURN_RISES: f64 = 2.0;
/// A turn may show an event that no look did: then all is looked at again, at most so often.
const MOST_ROUNDS: usize = 4;
/// The ball has come to rest on its hitch when its height is within this, in metres.
const HITCH_WITHIN: f64 = 1e-9;
/// A bracket of the ball's height this narrow, in metres, holds a step of the tongue weight.
const HITCH_STEP_WITHIN: f64 = 1e-13;
/// Far more steps than halving any sinking of the ball to its tolerance takes.
const MOST_HITCH_STEPS: usize = 200;

/// The tow vehicle's shape in its own plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TowShape {
    /// Between its axles.
    pub wheelbase: Length,
    /// From its rear axle back to the ball.
    pub overhang: Length,
    /// The ball above the line of its contact points.
    pub ball_height: Length,
}

/// How the hitch gives under the tongue.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HitchSpring {
    /// Tongue weight for each unit that the ball sinks.
    pub rate: Rate,
    /// The tongue weight at which the ball is at its height, on the level.
    pub level_tongue_weight: Weight,
}

/// A rig on its way over a ramp.
#[derive(Debug, Clone, Copy)]
pub struct Convoy<'a> {
    /// The tow vehicle.
    pub tow: TowShape,
    /// How its hitch gives; none for a stiff one.
    pub hitch: Option<HitchSpring>,
    /// All that ball and trailer wheels carry.
    pub body: Body,
    /// The trailer's axles.
    pub wheels: &'a Undercarriage,
}

/// One contact of the tow vehicle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contact {
    /// Where it stands.
    pub at: GroundPoint,
    /// Sine and cosine of the slope of the ground there.
    heading: (f64, f64),
}

impl Contact {
    /// A contact with ground of this slope, positive up going aft.
    pub fn on(at: GroundPoint, slope: Angle) -> Self {
        Self { at, heading: slope.si().sin_cos() }
    }

    /// The slope of the ground, positive up going aft.
    pub fn slope(&self) -> Angle {
        Angle::from_si(self.heading.0.atan2(self.heading.1))
    }

    /// Sine and cosine of that slope.
    pub(super) fn heading(&self) -> (f64, f64) {
        self.heading
    }
}

/// A direction in the vertical plane: aft and up.
type Direction = (f64, f64);

/// The rig at one position.
#[derive(Debug, Clone, PartialEq)]
pub struct Instant {
    /// The trailer's rearmost hub past the first break.
    pub position: Length,
    /// The tow vehicle's front contact.
    pub front: Contact,
    /// The tow vehicle's rear contact.
    pub rear: Contact,
    /// The ball.
    pub ball: GroundPoint,
    /// The trailer.
    pub stance: Stance,
    /// Aft along the tow vehicle's contact line.
    tow_axis: Direction,
    /// Aft along the trailer's frame.
    frame_axis: Direction,
    course: Course,
    sinks: Sinks,
    breaks: (u16, u16),
}

/// How far the ball sinks on the hitch, in metres, and how the miss of a height rises with it.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Sinks {
    by: f64,
    slope: f64,
}

/// How the pitch goes with the place of the tow vehicle's rear axle: the parabola through the last three places, by
/// Newton's divided differences, in radians and metres.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Course {
    /// How far the rear axle went on the way to the last place.
    way: f64,
    /// How the pitch grew on it, per metre.
    grows: f64,
    /// How that growth grew since the way before, per metre from the first place to the last.
    bends: f64,
}

impl Course {
    /// How much the pitch grows on the next so many metres.
    fn growth(self, on: f64) -> f64 {
        on * (self.grows + (on + self.way) * self.bends)
    }

    /// The course after the next so many metres, on which the pitch grew by this.
    fn after(self, on: f64, growth: f64) -> Self {
        let (grows, both) = (growth / on, on + self.way);
        // The first way has none before it to tell a bend from, nor has one that leads back.
        let tells = self.way != 0.0 && both.abs() >= BESIDE_EVENT;
        Self { way: on, grows, bends: if tells { (grows - self.grows) / both } else { 0.0 } }
    }
}

/// Where a rig is looked for first: a good guess saves steps and changes nothing else.
#[derive(Debug, Clone, Copy)]
pub(super) struct Near {
    pitch: Angle,
    /// The place beside, and how the pitch went on the way to it.
    beside: Option<(f64, Course)>,
    sinks: Sinks,
}

impl Near {
    /// About a pitch of the trailer.
    pub fn pitched(pitch: Angle) -> Self {
        Self { pitch, beside: None, sinks: Sinks { by: 0.0, slope: 2.0 } }
    }

    /// About how it stands at a place beside.
    pub fn to(beside: &Instant) -> Self {
        let from = (beside.rear_axle(), beside.course);
        Self { pitch: beside.stance.pitch, beside: Some(from), sinks: beside.sinks }
    }

    /// The pitch with the rear axle at a place, as far as the way to the place beside foretells it.
    fn pitch_at(self, rear_axle: f64) -> Angle {
        let grows = self.beside.map_or(0.0, |(from, course)| course.growth(rear_axle - from));
        self.pitch + Angle::from_si(grows)
    }

    /// The course on the way from the place beside to another; as before where that is too near to tell.
    fn course(self, rear_axle: f64, pitch: Angle) -> Course {
        let Some((from, course)) = self.beside else { return Course::default() };
        let way = rear_axle - from;
        if way.abs() < BESIDE_EVENT { course } else { course.after(way, (pitch - self.pitch).si()) }
    }
}

/// A position at which the trailer does not rest on its wheels.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{why}")]
pub struct Stranded {
    /// The trailer's last known position.
    pub position: Length,
    /// What happens.
    pub why: Unsettled,
}

impl Instant {
    /// Where a point of the trailer frame lies, in ground axes.
    pub fn trailer_point(&self, point: FramePoint) -> GroundPoint {
        let (tx, tz) = self.frame_axis;
        let (x, z) = (point.x.si(), point.z.si());
        GroundPoint {
            x: self.ball.x + Length::from_si(x * tx - z * tz),
            z: self.ball.z + Length::from_si(x * tz + z * tx),
        }
    }

    /// Where a point of the tow vehicle lies, in ground axes: `aft` of its rear axle and `up` from its contact line.
    pub fn tow_point(&self, aft: Length, up: Length) -> GroundPoint {
        let (tx, tz) = self.tow_axis;
        let (aft, up) = (aft.si(), up.si());
        GroundPoint {
            x: self.rear.at.x + Length::from_si(aft * tx - up * tz),
            z: self.rear.at.z + Length::from_si(aft * tz + up * tx),
        }
    }

    /// How far a point lies aft of the tow vehicle's rear axle, along its contact line.
    pub fn aft_of_rear_axle(&self, point: GroundPoint) -> Length {
        let (tx, tz) = self.tow_axis;
        (point.x - self.rear.at.x) * tx + (point.z - self.rear.at.z) * tz
    }

    /// Where the tow vehicle's rear axle stands.
    fn rear_axle(&self) -> f64 {
        self.rear.at.x.si()
    }

    fn alike(&self, other: &Self) -> bool {
        self.stance.doing == other.stance.doing && self.breaks == other.breaks
    }
}

impl Convoy<'_> {
    /// The rig with its tow vehicle's rear axle at a place, `near` a pitch of the trailer.
    ///
    /// # Errors
    /// [`Unsettled`] when the trailer does not rest on its wheels there.
    pub fn at(&self, terrain: &Terrain, rear_axle: Length, near: Angle) -> Result<Instant, Unsettled> {
        self.beside(terrain, rear_axle, Near::pitched(near))
    }

    fn beside(&self, terrain: &Terrain, rear_axle: Length, near: Near) -> Result<Instant, Unsettled> {
        let settled = |ball, near| settle(self.body, self.wheels, ball, terrain, near);
        self.resting(terrain, rear_axle, near, settled)
    }

    /// As [`Convoy::at`], where `settled` is how the trailer rests with its ball at a point, near a pitch.
    pub(super) fn resting<E: From<Unsettled>>(
        &self,
        terrain: &Terrain,
        rear_axle: Length,
        near: Near,
        settled: impl Fn(GroundPoint, Angle) -> Result<Stance, E>,
    ) -> Result<Instant, E> {
        let rear = terrain.at(rear_axle.si());
        let front = terrain.ahead(rear, self.tow.wheelbase.si());
        let (tx, tz) = along((rear.x - front.x, rear.z - front.z));
        let (o, h) = (self.tow.overhang.si(), self.tow.ball_height.si());
        // Aft along the line, up normal to it.
        let ball = |h: f64| GroundPoint {
            x: Length::from_si(rear.x + o * tx - h * tz),
            z: Length::from_si(rear.z + o * tz + h * tx),
        };
        let settled = |h: f64, near| settled(ball(h), near);
        let (sinks, stance) = self.on_the_hitch(h, near.pitch_at(rear.x), near.sinks, settled)?;
        let last = stance.hubs.len() - 1;
        let (sin, cos) = stance.pitch.si().sin_cos();
        Ok(Instant {
            position: stance.hubs[last].x,
            front: contact(front),
            rear: contact(rear),
            ball: ball(h - sinks.by),
            tow_axis: (tx, tz),
            frame_axis: (cos, -sin),
            course: near.course(rear.x, stance.pitch),
            sinks,
            stance,
            breaks: (front.breaks_before, rear.breaks_before),
        })
    }

    /// Lets the ball sink on the hitch until the tongue weight fits: `h = h0 − (V − V0) / c`.
    fn on_the_hitch<E: From<Unsettled>>(
        &self,
        free: f64,
        near: Angle,
        sinks: Sinks,
        settled: impl Fn(f64, Angle) -> Result<Stance, E>,
    ) -> Result<(Sinks, Stance), E> {
        let Some(hitch) = self.hitch else {
            return Ok((Sinks { by: 0.0, ..sinks }, settled(free, near)?));
        };
        let (c, v0) = (hitch.rate.si(), hitch.level_tongue_weight.si());
        // With a higher ball the tongue grows heavier, or lighter by far less than any hitch gives: the miss
        // h − h0 + (V − V0)/c rises with h. Secant steps, and halving where they leave the bracket or stall.
        let miss = |h: f64, stance: &Stance| h - free + (stance.tongue_weight.si() - v0) / c;
        let (mut h, mut slope) = (free - sinks.by, sinks.slope);
        let mut stance = settled(h, near)?;
        let mut m = miss(h, &stance);
        let mut bracket = Bracket::new(f64::NEG_INFINITY, f64::INFINITY);
        for _ in 0..MOST_HITCH_STEPS {
            bracket.look(h, m);
            if m.abs() <= HITCH_WITHIN || bracket.width() <= HITCH_STEP_WITHIN {
                // The miss rises by about the height or more; what rounding makes of it is no slope.
                return Ok((Sinks { by: free - h, slope: slope.max(1.0) }, stance));
            }
            // A little more than the miss away lies the other side.
            let next = bracket.next(Some(h - m / slope)).unwrap_or(h - 1.5 * m);
            stance = settled(next, stance.pitch)?;
            let left = miss(next, &stance);
            slope = (left - m) / (next - h);
            (h, m) = (next, left);
        }
        Err(Unsettled::OutOfRange.into())
    }
}

fn contact(footing: Footing) -> Contact {
    Contact {
        at: GroundPoint { x: Length::from_si(footing.x), z: Length::from_si(footing.z) },
        heading: (footing.sin, footing.cos),
    }
}

/// The direction of a line.
fn along((x, z): (f64, f64)) -> Direction {
    let length = (x * x + z * z).sqrt();
    (x / length, z / length)
}

/// The greatest that a followed value becomes on a crossing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Greatest {
    /// The value.
    pub value: f64,
    /// The position where it first occurs.
    pub at: Length,
}

/// Backs a rig from the level before the ramp until its rearmost hub is `end` past the first break, and returns the
/// greatest of each value that `follow` adds to its list, in that order. It adds as many at every position.
///
/// `visit` is called in order: every `step` of the tow vehicle's rear axle, on both sides of every event, where each
/// greatest value occurs, and at the end.
///
/// # Errors
/// [`Stranded`] where the trailer does not rest on its wheels; what lies before has been visited.
pub fn traverse(
    convoy: &Convoy<'_>,
    terrain: &Terrain,
    end: Length,
    step: Length,
    follow: impl Fn(&Instant, &mut Vec<f64>),
    mut visit: impl FnMut(&Instant),
) -> Result<Vec<Greatest>, Stranded> {
    let mut crossing = Crossing { convoy, terrain, follow, looks: Vec::new() };
    let found = crossing.walk(end).and_then(|()| crossing.greatest());
    let (shown, greatest) = match found {
        Ok((turns, greatest)) => (turns, Ok(greatest)),
        Err(stranded) => (Vec::new(), Err(stranded)),
    };
    crossing.show(step.si(), &shown, &mut visit)?;
    greatest
}

/// One look at the rig.
struct Look {
    instant: Instant,
    /// Whether it is a side of an event, or an end of the crossing.
    is_event: bool,
}

/// A crossing and every look at it, in order.
struct Crossing<'a, F> {
    convoy: &'a Convoy<'a>,
    terrain: &'a Terrain,
    follow: F,
    looks: Vec<Look>,
}

impl<F: Fn(&Instant, &mut Vec<f64>)> Crossing<'_, F> {
    /// The rig with its rear axle at a place, beginning from the pitch of a position near it.
    fn at(&self, rear: f64, near: &Instant) -> Result<Instant, Stranded> {
        let there = self.convoy.beside(self.terrain, Length::from_si(rear), Near::to(near));
        there.map_err(|why| Stranded { position: near.position, why })
    }

    /// Looks at the whole way, event by event.
    fn walk(&mut self, end: Length) -> Result<(), Stranded> {
        let Some(last) = self.convoy.wheels.axles.last() else { return Ok(()) };
        // Everything is still on the level when the rearmost wheel has a little to go.
        let reach = (self.convoy.tow.overhang + last.station + last.wheel_radius).si();
        let rear = self.terrain.first_bend().min(0.0) - reach - LOOK;
        let first = self.convoy.at(self.terrain, Length::from_si(rear), Angle::default());
        let first = first.map_err(|why| Stranded { position: Length::default(), why })?;
        self.looks.push(Look { instant: first, is_event: true });
        while let Some(before) = self.looks.last().map(|look| &look.instant).filter(|at| at.position < end) {
            let from = before.rear_axle();
            let mut rear = from + self.stride(before, end);
            let mut after = if let Ok(after) = self.at(rear, before) {
                after
            } else {
                // Where it strands is found as closely as anything else.
                rear = from + LOOK;
                self.at(rear, before)?
            };
            let is_last = after.position >= end;
            if is_last {
                // The last step ends where the ramp does.
                let short = |at: f64| Ok(self.at(at, before)?.position < end);
                rear = halve(from, rear, EVENT_WITHIN, short)?.1;
                after = self.at(rear, before)?;
            }
            let between = self.between(before, &after)?;
            self.looks.extend(between);
            self.looks.push(Look { instant: after, is_event: is_last });
        }
        Ok(())
    }

    /// How far the rear axle goes from one look to the next, on the way to the end.
    fn stride(&self, from: &Instant, end: Length) -> f64 {
        let front = from.front.at.x;
        if self.terrain.last_bend().is_none_or(|bend| front >= bend) {
            // All that follows is alike: hub and rear axle go equally far.
            return (end - from.position).si() + LOOK;
        }
        let wheels = from.stance.hubs.iter().zip(&self.convoy.wheels.axles);
        let wheels = wheels.map(|(hub, axle)| (hub.x, axle.wheel_radius));
        let mut all = wheels.chain([(front, Length::default()), (from.rear.at.x, Length::default())]);
        // Nothing goes farther than twice the stride.
        let ahead = Length::from_si(2.0 * FAR_LOOK);
        let on_a_grade =
            |(x, r): (Length, Length)| self.terrain.is_straight((x - r).si(), (x + r + ahead).si());
        if all.all(on_a_grade) { FAR_LOOK } else { LOOK }
    }

    /// Both sides of every event between two looks, with a look beside each.
    fn between(&self, before: &Instant, after: &Instant) -> Result<Vec<Look>, Stranded> {
        // So it is between most looks, and copies of an instant are large.
        if before.alike(after) {
            return Ok(Vec::new());
        }
        // The ends of each stretch without an event.
        let mut ends = vec![before.clone()];
        let mut here = before.clone();
        for _ in 0..MOST_EVENTS {
            if here.alike(after) {
                break;
            }
            // The first place after `here` that is no longer like it.
            let alike = |rear: f64| Ok(here.alike(&self.at(rear, &here)?));
            let (last, first) = halve(here.rear_axle(), after.rear_axle(), EVENT_WITHIN, alike)?;
            ends.push(self.at(last, &here)?);
            here = self.at(first, &here)?;
            ends.push(here.clone());
        }
        ends.push(after.clone());
        let mut looks = Vec::new();
        for (i, stretch) in ends.chunks(2).enumerate() {
            let [from, to] = stretch else { continue };
            let (begins, ends) = (i > 0, 2 * i + 2 < ends.len());
            let apart = to.rear_axle() - from.rear_axle() > 2.0 * BESIDE_EVENT;
            if begins {
                looks.push(Look { instant: from.clone(), is_event: true });
            }
            if begins && apart {
                looks.push(self.look(from.rear_axle() + BESIDE_EVENT, from)?);
            }
            if ends && apart {
                looks.push(self.look(to.rear_axle() - BESIDE_EVENT, to)?);
            }
            if ends {
                looks.push(Look { instant: to.clone(), is_event: true });
            }
        }
        Ok(looks)
    }

    fn look(&self, rear: f64, near: &Instant) -> Result<Look, Stranded> {
        Ok(Look { instant: self.at(rear, near)?, is_event: false })
    }

    /// The greatest of every followed value, and the positions where they occur.
    fn greatest(&mut self) -> Result<(Vec<Instant>, Vec<Greatest>), Stranded> {
        let mut peaks = self.peaks()?;
        for _ in 1..MOST_ROUNDS {
            let hidden = self.hidden(&peaks)?;
            if hidden.is_empty() {
                break;
            }
            self.looks.extend(hidden);
            self.looks.sort_by(|a, b| a.instant.rear_axle().total_cmp(&b.instant.rear_axle()));
            peaks = self.peaks()?;
        }
        let greatest = peaks.iter().map(|peak| Greatest { value: peak.value, at: peak.instant.position });
        let greatest = greatest.collect();
        Ok((peaks.into_iter().map(|peak| peak.instant).collect(), greatest))
    }

    /// The peak of every followed value, as far as the looks show its turns.
    fn peaks(&self) -> Result<Vec<Peak>, Stranded> {
        let mut values = Vec::new();
        for look in &self.looks {
            (self.follow)(&look.instant, &mut values);
        }
        let followed = values.len() / self.looks.len().max(1);
        let mut of_one = Vec::with_capacity(self.looks.len());
        (0..followed)
            .map(|which| {
                of_one.clear();
                of_one.extend(values.iter().skip(which).step_by(followed));
                self.peak(which, &of_one)
            })
            .collect()
    }

    /// The peak of one followed value, given at each look.
    fn peak(&self, which: usize, values: &[f64]) -> Result<Peak, Stranded> {
        let passes = |value: f64, peak: f64| value - peak > SAME * peak.abs();
        let (mut best, mut most) = (0, values[0]);
        for (look, &value) in values.iter().enumerate() {
            if passes(value, most) {
                (best, most) = (look, value);
            }
        }
        let mut peak = Peak { value: most, instant: self.looks[best].instant.clone(), between: None };
        for (i, values) in values.windows(3).enumerate() {
            let &[before, here, after] = values else { continue };
            let (rises, falls) = (here - before, here - after);
            if !(rises >= 0.0 && falls >= 0.0 && rises + falls > SAME * here.abs()) {
                continue;
            }
            let [from, near, to] = &self.looks[i..i + 3] else { continue };
            if !(from.instant.alike(&near.instant) && near.instant.alike(&to.instant)) {
                continue;
            }
            let [s0, s1, s2] = [from, near, to].map(|look| look.instant.rear_axle());
            // The line through the look and one neighbour, drawn on to the other.
            let beyond = (rises * (s2 - s1) / (s1 - s0)).max(falls * (s1 - s0) / (s2 - s1));
            if !passes(here + TURN_RISES * beyond, peak.value) {
                continue;
            }
            let mut list = Vec::new();
            let (turn, top) = peak::greatest(s0, (s1, here), s2, TURN_WITHIN, |rear| {
                list.clear();
                (self.follow)(&self.at(rear, &near.instant)?, &mut list);
                Ok(list[which])
            })?;
            if passes(top, peak.value) {
                let instant = self.at(turn, &near.instant)?;
                peak = Peak { value: top, instant, between: Some(if turn < s1 { i } else { i + 1 }) };
            }
        }
        Ok(peak)
    }

    /// Looks at events that only the peaks between two looks show.
    fn hidden(&self, peaks: &[Peak]) -> Result<Vec<Look>, Stranded> {
        let mut looks = Vec::new();
        for peak in peaks {
            let Some(look) = peak.between else { continue };
            let (before, after) = (&self.looks[look].instant, &self.looks[look + 1].instant);
            if !peak.instant.alike(before) {
                looks.extend(self.between(before, &peak.instant)?);
                looks.push(Look { instant: peak.instant.clone(), is_event: false });
                looks.extend(self.between(&peak.instant, after)?);
            }
        }
        Ok(looks)
    }

    /// Visits every event, these peaks and the last look, and positions a step apart between them.
    fn show(&self, step: f64, peaks: &[Instant], visit: &mut impl FnMut(&Instant)) -> Result<(), Stranded> {
        let events = self.looks.iter().filter(|look| look.is_event).chain(self.looks.last());
        let mut shown: Vec<&Instant> = events.map(|look| &look.instant).chain(peaks).collect();
        shown.sort_by(|a, b| a.rear_axle().total_cmp(&b.rear_axle()));
        shown.dedup_by_key(|instant| instant.rear_axle());
        let Some(start) = shown.first().map(|first| first.rear_axle()) else { return Ok(()) };
        let mut count = 1.0;
        for next in shown {
            while start + count * step < next.rear_axle() {
                visit(&self.at(start + count * step, next)?);
                count += 1.0;
            }
            visit(next);
        }
        Ok(())
    }
}

/// The greatest of one followed value in the making.
struct Peak {
    value: f64,
    instant: Instant,
    /// The look before it, where it lies between two.
    between: Option<usize>,
}
