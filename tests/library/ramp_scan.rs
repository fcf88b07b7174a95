//! A rigid rig with two equalized axles backed over one sharp break, looked at every hundredth of an inch: a second
//! method for what a ramp does, in pounds and inches.
//!
//! Wheels stand off the nearest ground by their radius. Both axles carry the same, and as the springs do not give,
//! the frame stands where its two hubs' distances from it add up to twice the level one. Each wheel's force points
//! from the ground to its hub; moments about the ball give its size.

/// The rig and the ramp, level up to `X = 0` and then down at one grade. Points are `[aft of the ball, above the
/// frame line]`.
pub struct Scan {
    pub weight: f64,
    pub centre: [f64; 2],
    pub axles: [f64; 2],
    pub radius: f64,
    pub hub_below: f64,
    pub overhang: f64,
    pub ball_height: f64,
    pub wheelbase: f64,
    pub tow_loads: [f64; 2],
    pub tow_centre_height: f64,
    pub grade: f64,
    pub length: f64,
    pub points: [[f64; 2]; 3],
    /// Both ends of the keel, forward and aft.
    pub keel: [[f64; 2]; 2],
    pub spare: [f64; 2],
}

/// The worst of the crossing.
pub struct Found {
    pub axles: [f64; 2],
    pub tires: [f64; 2],
    pub tongue: f64,
    /// Parked, pulled out at a steady speed, and starting.
    pub friction: [f64; 3],
    pub clearances: [f64; 2],
    pub spare: f64,
    pub keel: f64,
    /// Behind the tow vehicle's rear axle.
    pub bow: f64,
}

type Point = [f64; 2];

fn plus(a: Point, b: Point) -> Point {
    [a[0] + b[0], a[1] + b[1]]
}

fn minus(a: Point, b: Point) -> Point {
    [a[0] - b[0], a[1] - b[1]]
}

fn times(a: Point, by: f64) -> Point {
    a.map(|part| part * by)
}

fn dot(a: Point, b: Point) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}

/// The moment of a force at an arm.
fn cross(arm: Point, force: Point) -> f64 {
    arm[0] * force[1] - arm[1] * force[0]
}

/// Where a function that rises through zero does so, by false position.
fn zero(mut low: f64, mut high: f64, of: impl Fn(f64) -> f64) -> f64 {
    let (mut at_low, mut at_high) = (of(low), of(high));
    for _ in 0..50 {
        let between = high - at_high * (high - low) / (at_high - at_low);
        let there = of(between);
        if there.abs() < 1e-12 {
            return between;
        }
        // The end that stays counts for half the next time, so that both come nearer.
        if there * at_high < 0.0 {
            (low, at_low) = (high, at_high);
        } else {
            at_low /= 2.0;
        }
        (high, at_high) = (between, there);
    }
    high
}

impl Scan {
    fn ground(&self, x: f64) -> Point {
        [x, -self.grade * x.max(0.0)]
    }

    /// The direction down the ramp.
    fn down(&self) -> Point {
        let size = 1f64.hypot(self.grade);
        [1.0 / size, -self.grade / size]
    }

    /// The ground nearest to a point above it.
    fn nearest(&self, at: Point) -> Point {
        let on_ramp = times(self.down(), dot(at, self.down()).max(0.0));
        let on_level = [at[0].min(0.0), 0.0];
        let far = |from: Point| dot(minus(at, from), minus(at, from));
        if far(on_ramp) < far(on_level) { on_ramp } else { on_level }
    }

    /// How far under the frame line the hub at this place of the frame finds its height, along the frame's normal.
    fn reach(&self, at: Point, below: Point) -> f64 {
        // Far up it stands too high, far down in the ground.
        zero(-30.0, 60.0, |far| {
            let hub = plus(at, times(below, far));
            let ground = self.nearest(hub);
            let over = hub[1] - self.ground(hub[0])[1];
            let away = dot(minus(hub, ground), minus(hub, ground)).sqrt();
            self.radius - if over > 0.0 { away } else { -away }
        })
    }

    pub fn run(&self) -> Found {
        let mut worst = Found {
            axles: [0.0; 2],
            tires: [0.0; 2],
            tongue: 0.0,
            friction: [0.0; 3],
            clearances: [f64::INFINITY; 2],
            spare: f64::INFINITY,
            keel: f64::INFINITY,
            bow: f64::INFINITY,
        };
        // The tow vehicle's rear axle from where the whole rig stands on the level.
        let mut rear_x = -self.overhang - self.axles[1] - 60.0;
        while self.look(rear_x, &mut worst) {
            rear_x += 0.01;
        }
        worst
    }

    /// Looks at one position; whether the rear hub still stands short of the ramp's end.
    fn look(&self, rear_x: f64, worst: &mut Found) -> bool {
        let rear = self.ground(rear_x);
        let front = self.ground(zero(rear_x - self.wheelbase - 1.0, rear_x, |x| {
            let ahead = minus(self.ground(x), rear);
            self.wheelbase - dot(ahead, ahead).sqrt()
        }));
        let aft = times(minus(rear, front), 1.0 / self.wheelbase);
        let up = [-aft[1], aft[0]];
        let of_tow = |point: Point| plus(rear, plus(times(aft, point[0]), times(up, point[1])));
        let ball = of_tow([self.overhang, self.ball_height]);

        let along = |pitch: f64| [pitch.cos(), -pitch.sin()];
        let below = |pitch: f64| [-pitch.sin(), -pitch.cos()];
        let reaches =
            |pitch: f64| self.axles.map(|x| self.reach(plus(ball, times(along(pitch), x)), below(pitch)));
        // Nose up, the frame comes down on its axles.
        let pitch = zero(-0.4, 0.4, |pitch| 2.0 * self.hub_below - reaches(pitch).iter().sum::<f64>());
        let frame =
            |point: Point| plus(ball, minus(times(along(pitch), point[0]), times(below(pitch), point[1])));

        let far = reaches(pitch);
        let hubs = [0, 1].map(|i| frame([self.axles[i], -far[i]]));
        let from_ground = hubs.map(|hub| times(minus(hub, self.nearest(hub)), 1.0 / self.radius));
        // Each wheel's force for a spring's of one pound along the frame's normal.
        let forces = from_ground.map(|way| times(way, -1.0 / dot(way, below(pitch))));
        let turning: f64 = [0, 1].map(|i| cross(minus(hubs[i], ball), forces[i])).iter().sum();
        let spring = self.weight * (frame(self.centre)[0] - ball[0]) / turning;
        let forces = forces.map(|force| times(force, spring));
        let loads = forces.map(|force| dot(force, force).sqrt());
        let on_axles: f64 = loads.iter().sum();
        // 6000 lb lie 2 in to one side of a track of 80 in; one tire a side.
        let heavier = 0.5 + 12_000.0 / on_axles / 80.0;
        let tongue = self.weight - forces[0][1] - forces[1][1];

        for (i, load) in loads.into_iter().enumerate() {
            worst.axles[i] = worst.axles[i].max(load);
            worst.tires[i] = worst.tires[i].max(load * heavier);
            let point = frame(self.points[i]);
            worst.clearances[i] = worst.clearances[i].min(point[1] - self.ground(point[0])[1]);
        }
        let ends = self.keel.map(frame);
        let over = |point: Point| point[1] - self.ground(point[0])[1];
        // A straight line is nearest to the ground at an end, or over the break.
        worst.keel = ends.into_iter().map(over).fold(worst.keel, f64::min);
        if ends[0][0] < 0.0 && ends[1][0] > 0.0 {
            let share = -ends[0][0] / (ends[1][0] - ends[0][0]);
            worst.keel = worst.keel.min(ends[0][1] + share * (ends[1][1] - ends[0][1]));
        }
        worst.tongue = worst.tongue.max(tongue);
        for (worst, [rolling, start]) in worst.friction.iter_mut().zip(MOTIONS) {
            // The wheels' forces turn aft; what they then carry balances weight and inertia about the ball.
            let dragged = forces.map(|[x, z]| [x + rolling * z, z - rolling * x]);
            let on_body = plus([0.0, -self.weight], times(along(pitch), start * self.weight));
            let turned: f64 = [0, 1].map(|i| cross(minus(hubs[i], ball), dragged[i])).iter().sum();
            let carried = -cross(minus(frame(self.centre), ball), on_body) / turned;
            let on_wheels = times(plus(dragged[0], dragged[1]), carried);
            let needed =
                self.friction(rear, front, aft, up, ball, plus(on_body, on_wheels), [rolling, start]);
            *worst = worst.max(needed);
        }
        let spare = of_tow(self.spare);
        worst.spare = worst.spare.min(spare[1] - self.ground(spare[0])[1]);
        worst.bow = worst.bow.min(dot(minus(frame(self.points[2]), rear), aft));
        hubs[1][0] < self.length
    }

    /// Tangential over normal force under the rear wheels, which alone hold.
    #[expect(clippy::too_many_arguments, reason = "a plain second method")]
    fn friction(
        &self,
        rear: Point,
        front: Point,
        aft: Point,
        up: Point,
        ball: Point,
        at_ball: Point,
        [rolling, start]: [f64; 2],
    ) -> f64 {
        let weight: f64 = self.tow_loads.iter().sum();
        let ahead = self.wheelbase * self.tow_loads[0] / weight;
        let centre = plus(rear, plus(times(aft, -ahead), times(up, self.tow_centre_height)));
        let normal = |at: Point| if at[0] > 0.0 { [-self.down()[1], self.down()[0]] } else { [0.0, 1.0] };
        // What a pound on a wheel does: normal to the ground, and aft along it.
        let under = |at: Point| plus(normal(at), times([normal(at)[1], -normal(at)[0]], rolling));
        let on_body = plus([0.0, -weight], times(aft, start * weight));
        let about_rear = cross(minus(centre, rear), on_body) + cross(minus(ball, rear), at_ball);
        let on_front = -about_rear / cross(minus(front, rear), under(front));
        let rest = plus(plus(on_body, at_ball), times(under(front), on_front));
        let upright = normal(rear);
        let along = [upright[1], -upright[0]];
        // The rear wheels' own rolling resistance is part of what they hold.
        let on_rear = -dot(rest, upright);
        (dot(rest, along) + rolling * on_rear).abs() / on_rear.abs()
    }
}

/// Rolling resistance and start, as shares of weight.
const MOTIONS: [[f64; 2]; 3] = [[0.0, 0.0], [0.015, 0.0], [0.015, 0.03]];
