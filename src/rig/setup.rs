//! What a rig file says, typed: one field for each key, nothing computed.
//!
//! Every value may be absent; what needs it says so. The table in [`super::input`] leads from a
//! key's path to its field here.

use super::inputs::Key;
use crate::quantity::show::UnitSystem;
use crate::quantity::{
    Angle, Area, Charge, Current, Density, Length, Moment, Pressure, Quantity, Rate, Share, Slope, Speed,
    Volume, Weight,
};

/// The most axles a trailer may have.
pub const MAX_AXLES: usize = 6;

/// A word chosen from a short list.
pub trait Choice {
    /// The words to choose from.
    fn words(&self) -> &'static [&'static str];
    /// Takes the word's meaning; false when the word is not on the list.
    fn choose(&mut self, word: &str) -> bool;
    /// The word that has been chosen, if any.
    fn chosen(&self) -> Option<&'static str>;
    /// Forgets what has been chosen.
    fn clear(&mut self);
}

macro_rules! choice {
    ($(#[$doc:meta])* $name:ident { $($(#[$variant_doc:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum $name { $($(#[$variant_doc])* $variant),+ }

        impl $name {
            /// The word that stands for it in a rig file.
            pub fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }
        }

        impl Choice for Option<$name> {
            fn words(&self) -> &'static [&'static str] {
                &[$($word),+]
            }
            fn choose(&mut self, word: &str) -> bool {
                let chosen = match word {
                    $($word => $name::$variant,)+
                    _ => return false,
                };
                *self = Some(chosen);
                true
            }
            fn chosen(&self) -> Option<&'static str> {
                self.map($name::word)
            }
            fn clear(&mut self) {
                *self = None;
            }
        }
    };
}

choice! {
    /// What a trailer's frame is made of.
    Material {
        /// Steel.
        Steel = "steel",
        /// Aluminium.
        Aluminium = "aluminium",
    }
}

choice! {
    /// How the axles are sprung.
    SuspensionKind {
        /// Leaf springs joined by equalizers between neighbouring axles.
        LeafEqualized = "leaf-equalized",
        /// Leaf springs, each axle for itself.
        LeafSeparate = "leaf-separate",
        /// Torsion axles, each for itself.
        Torsion = "torsion",
    }
}

choice! {
    /// What a tank holds.
    Fluid {
        /// Gasoline.
        Gasoline = "gasoline",
        /// Diesel.
        Diesel = "diesel",
        /// Fresh water.
        FreshWater = "fresh-water",
        /// Sea water.
        SeaWater = "sea-water",
    }
}

choice! {
    /// What a ramp leads into.
    Water {
        /// Fresh water.
        Fresh = "fresh-water",
        /// Sea water.
        Sea = "sea-water",
    }
}

choice! {
    /// What a tire is for.
    TireKind {
        /// A trailer tire (ST).
        Trailer = "trailer",
        /// A light-truck tire (LT).
        LightTruck = "light-truck",
        /// A passenger-car tire (P), whose rating is cut on a trailer.
        Passenger = "passenger",
    }
}

choice! {
    /// How a tire is built.
    Construction {
        /// Radial.
        Radial = "radial",
        /// Bias-ply.
        Bias = "bias",
    }
}

choice! {
    /// The speed that a tire's symbol stands for.
    SpeedSymbol {
        /// 100 km/h.
        J = "J",
        /// 110 km/h.
        K = "K",
        /// 120 km/h.
        L = "L",
        /// 130 km/h.
        M = "M",
        /// 140 km/h.
        N = "N",
        /// 150 km/h.
        P = "P",
        /// 160 km/h.
        Q = "Q",
        /// 170 km/h.
        R = "R",
        /// 180 km/h.
        S = "S",
        /// 190 km/h.
        T = "T",
        /// 200 km/h.
        U = "U",
        /// 210 km/h.
        H = "H",
    }
}

choice! {
    /// Which axle of the tow vehicle drives or holds.
    Gripping {
        /// The front axle.
        Front = "front",
        /// The rear axle.
        Rear = "rear",
        /// All axles.
        All = "all",
    }
}

choice! {
    /// How a bunk's board lies.
    Lay {
        /// Narrow face up, bevelled to the hull.
        Edge = "edge",
        /// Wide face up, tilted to the hull.
        Flat = "flat",
    }
}

choice! {
    /// A species and grade of lumber.
    Wood {
        /// Douglas fir-larch No. 2.
        DouglasFirLarch2 = "douglas-fir-larch-2",
        /// Southern pine No. 2.
        SouthernPine2 = "southern-pine-2",
        /// Western cedars No. 2.
        WesternCedar2 = "western-cedar-2",
    }
}

choice! {
    /// Whether wood stays dry.
    Service {
        /// It goes into the water, or stands in the rain.
        Wet = "wet",
        /// It stays dry.
        Dry = "dry",
    }
}

choice! {
    /// What works a trailer's brakes.
    BrakeSystem {
        /// The push of the trailer on a coupler that slides.
        Surge = "surge",
        /// Magnets at the wheels.
        Electric = "electric",
        /// A pump that a controller works.
        ElectricHydraulic = "electric-hydraulic",
        /// There are no brakes.
        None = "none",
    }
}

choice! {
    /// What brakes an actuator is made for.
    BrakeType {
        /// Discs.
        Disc = "disc",
        /// Drums.
        Drum = "drum",
    }
}

choice! {
    /// The brakes at a wheel.
    WheelBrakeKind {
        /// A disc.
        Disc = "disc",
        /// A drum with a leading and a trailing shoe.
        Drum = "drum",
        /// A drum whose shoes push each other both ways.
        DrumServo = "drum-servo",
        /// A drum whose shoes push each other forward only.
        DrumServoForward = "drum-servo-forward",
        /// A drum with a magnet.
        Electric = "electric",
    }
}

choice! {
    /// How a caliper clamps.
    Caliper {
        /// It slides: pistons on one side.
        Floating = "floating",
        /// It is fixed: pistons on both sides.
        Fixed = "fixed",
    }
}

choice! {
    /// A brake fluid.
    BrakeFluid {
        /// DOT 3.
        Dot3 = "DOT 3",
        /// DOT 4.
        Dot4 = "DOT 4",
    }
}

choice! {
    /// What keeps surge brakes off while the rig backs up.
    Reverse {
        /// A valve or a key.
        LockOut = "lock-out",
        /// Drums that let go.
        FreeBacking = "free-backing",
        /// Nothing.
        None = "none",
    }
}

choice! {
    /// The radius rods on each side of an axle.
    RadiusRods {
        /// None.
        None = "none",
        /// One.
        One = "one",
        /// Two, one above the other.
        Pair = "pair",
    }
}

choice! {
    /// What holds the axle behind an equalizer along the frame.
    Thrust {
        /// The frame.
        Frame = "frame",
        /// The equalizer.
        Equalizer = "equalizer",
    }
}

choice! {
    /// How the rig was loaded when the frame was found level.
    LevelMeasured {
        /// As in the first case.
        Loaded = "loaded",
        /// The trailer alone.
        Empty = "empty",
    }
}

choice! {
    /// That a part is not there.
    Absent {
        /// It is not.
        Absent = "none",
    }
}

choice! {
    /// What turns a winch.
    Drive {
        /// A motor.
        Electric = "electric",
        /// A handle.
        Hand = "hand",
    }
}

choice! {
    /// What a winch winds up.
    WinchLine {
        /// A flat strap, turn upon turn.
        Strap = "strap",
        /// A wire rope.
        Wire = "wire",
        /// A fibre rope.
        Rope = "rope",
    }
}

choice! {
    /// What ties a boat down.
    TieDownKind {
        /// A webbing strap.
        Strap = "strap",
        /// A chain.
        Chain = "chain",
        /// A wire rope.
        Wire = "wire",
    }
}

choice! {
    /// Whose published rules make rows.
    Rules {
        /// Those of the United States.
        Us = "us",
        /// Those of the European Union and the UN regulations that it applies.
        Europe = "europe",
    }
}

choice! {
    /// What the loads follow where scales and items disagree.
    Trust {
        /// The items as they are listed.
        Items = "items",
        /// The scales: the items are brought to them.
        Scale = "scale",
    }
}

choice! {
    /// The units of the printed report.
    Units {
        /// Pounds, feet and inches.
        Us = "us",
        /// Kilograms and millimetres.
        Metric = "metric",
    }
}

impl From<Units> for UnitSystem {
    fn from(units: Units) -> Self {
        match units {
            Units::Us => Self::Us,
            Units::Metric => Self::Metric,
        }
    }
}

/// One setup of a rig: everything its file says.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Setup {
    /// The format of the file.
    pub format: Option<u32>,
    /// A line that names the rig.
    pub title: Option<String>,
    /// The units of the report.
    pub units: Option<Units>,
    /// How the rig is driven.
    pub trip: Trip,
    /// The boat.
    pub boat: Boat,
    /// What scales say.
    pub measured: Measured,
    /// Readings of a scale.
    pub weighings: Vec<Weighing>,
    /// The trailer.
    pub trailer: Trailer,
    /// The hitch.
    pub hitch: Hitch,
    /// The tow vehicle.
    pub tow: Tow,
    /// What the owner asks of the rig.
    pub policy: Policy,
    /// The ways it is loaded; the first is the reference.
    pub cases: Vec<Case>,
    /// A proposed move.
    pub shift: Shift,
    /// How far each part can go.
    pub travel: Travel,
    /// The ramps it is to use.
    pub ramps: Vec<Ramp>,
    /// The keys at which a default stands because the file is silent.
    pub(super) assumed: Vec<Key>,
}

/// How the rig is driven, and where.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Trip {
    /// Towed at this speed.
    pub speed: Option<Speed>,
    /// The sharpest angle between the vehicles at which the rig must brake.
    pub bend: Option<Angle>,
    /// Radius of the tightest curve taken at the speed.
    pub curve: Option<Length>,
    /// The longest descent that is to be held.
    pub descent: Descent,
    /// The day on which the tires' age is counted.
    pub date: Option<String>,
    /// The strongest gust from the side.
    pub wind: Option<Speed>,
    /// Slope to the side.
    pub cross_slope: Option<Slope>,
}

/// A descent.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Descent {
    /// Its grade.
    pub grade: Option<Slope>,
    /// Its height from top to bottom.
    pub height: Option<Length>,
}

/// One ramp.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ramp {
    /// Its name.
    pub name: Option<String>,
    /// Its runs, from the level down.
    pub profile: Vec<Run>,
    /// Length of the vertical curve at each break; zero is a sharp break.
    pub ease: Option<Length>,
    /// From the first break to the water's edge.
    pub water_from_top: Option<Length>,
    /// The water above the level ground at the top; negative below it.
    pub water_level: Option<Length>,
    /// Friction under the tow vehicle's tires.
    pub friction: Option<Share>,
    /// What it leads into.
    pub water: Option<Water>,
}

impl Ramp {
    /// Whether the file says where its water begins.
    pub fn has_water(&self) -> bool {
        self.water_from_top.is_some() || self.water_level.is_some()
    }
}

/// One straight run of a ramp.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Run {
    /// Its horizontal length.
    pub length: Option<Length>,
    /// Its grade, positive downhill toward the water.
    pub grade: Option<Slope>,
}

/// A point that may ground.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LowPoint {
    /// What it is.
    pub name: Option<String>,
    /// Along its owner: behind the ball, forward of the transom, or behind the tow vehicle's rear axle.
    pub station: Option<Length>,
    /// Above level ground, or above the boat's keel line.
    pub height: Option<Length>,
    /// To starboard of the centreline; of a boat's point only.
    pub side: Option<Length>,
}

/// The boat.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Boat {
    /// Its name.
    pub name: Option<String>,
    /// Its length.
    pub length: Option<Length>,
    /// Its beam.
    pub beam: Option<Length>,
    /// Its highest point above the keel line, as it is towed.
    pub top: Option<Length>,
    /// The bow eye, where the winch strap hooks on.
    pub bow_eye: BowEye,
    /// Height above the keel line of the centre of gravity of a boat known from scales.
    pub cg_height: Option<Length>,
    /// The same to starboard of the centreline.
    pub cg_side: Option<Length>,
    /// How far the bow reaches ahead of the bow eye.
    pub bow_overhang: Option<Length>,
    /// What the wind from the side presses on.
    pub windage: Windage,
    /// Its bottom.
    pub hull: Hull,
    /// Its shape, section by section from the transom forward.
    pub sections: Vec<HullSection>,
    /// How it floats, taped afloat.
    pub afloat: Afloat,
    /// Its low points.
    pub low_points: Vec<LowPoint>,
    /// Its parts and what it carries.
    pub weights: Vec<Item>,
    /// Its tanks.
    pub tanks: Vec<Tank>,
}

/// What the wind from the side presses on, boat and trailer together.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Windage {
    /// Its area.
    pub area: Option<Area>,
    /// Its centre forward of the transom.
    pub station: Option<Length>,
    /// Its centre above level ground.
    pub height: Option<Length>,
}

/// The boat's bottom, where bunks bear.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Hull {
    /// One angle for all of it.
    pub deadrise: Option<Angle>,
    /// Or several, from the transom forward.
    pub deadrise_at: Vec<DeadriseAt>,
    /// Where bottom and side meet.
    pub chine: HullEdge,
    /// Where the bottom begins to rise, forward of the transom.
    pub straight_run: Option<Length>,
    /// Where a bunk may begin to bear, forward of the transom.
    pub support_from: Option<Length>,
    /// The lines along the bottom that a bunk's edge may lie along.
    pub strakes: Vec<Strake>,
}

/// The deadrise at one station.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct DeadriseAt {
    /// Forward of the transom.
    pub station: Option<Length>,
    /// The angle there.
    pub deadrise: Option<Angle>,
}

/// The hull at one station: straight from keel to chine to sheer, alike on both sides.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct HullSection {
    /// Forward of the transom.
    pub station: Option<Length>,
    /// The keel above the keel line.
    pub keel: Option<Length>,
    /// Where bottom and side meet.
    pub chine: HullEdge,
    /// The side's upper edge.
    pub sheer: HullEdge,
}

/// How a boat floats, taped with its load aboard.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Afloat {
    /// From the water down to the keel line at the transom.
    pub draft: Option<Length>,
    /// From the water up to the bow eye.
    pub eye: Option<Length>,
}

/// An edge along the hull, where a section cuts it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct HullEdge {
    /// From the centreline.
    pub half_breadth: Option<Length>,
    /// Above the keel line.
    pub height: Option<Length>,
}

/// A strake along the bottom.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Strake {
    /// What it is called.
    pub name: Option<String>,
    /// From the centreline.
    pub half_breadth: Option<Length>,
}

impl Hull {
    /// The least and the greatest deadrise between two stations.
    fn deadrises(&self, from: Length, to: Length) -> Option<[Angle; 2]> {
        let at_from = self.deadrise(from)?;
        let mut range = [at_from; 2];
        // Straight between those listed: what is least or greatest is listed, or at an end.
        let inside = |at: &&DeadriseAt| at.station.is_some_and(|station| from < station && station < to);
        let listed = self.deadrise_at.iter().filter(inside).map(|at| at.deadrise);
        for angle in listed.chain([self.deadrise(to)]) {
            let angle = angle?;
            range = [range[0].min(angle), range[1].max(angle)];
        }
        Some(range)
    }

    /// The deadrise at a station, straight between those listed.
    pub fn deadrise(&self, station: Length) -> Option<Angle> {
        let mut before: Option<(Length, Angle)> = None;
        for at in &self.deadrise_at {
            let (here, angle) = (at.station?, at.deadrise?);
            if station <= here {
                let (from, first) = before.unwrap_or((here, angle));
                let run = (here - from).value;
                let share = if run > 0.0 { (station - from).value / run } else { 0.0 };
                return Some(first * (1.0 - share) + angle * share);
            }
            before = Some((here, angle));
        }
        before.map(|(_, angle)| angle).or(self.deadrise)
    }
}

/// The bow eye.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BowEye {
    /// Forward of the transom.
    pub station: Option<Length>,
    /// Above the keel line.
    pub height: Option<Length>,
    /// What may pull at it.
    pub rating: Option<Weight>,
}

/// Something of a fixed weight.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Item {
    /// A short name for cases and changes.
    pub id: Option<String>,
    /// What it is.
    pub item: Option<String>,
    /// Its weight.
    pub weight: Option<Weight>,
    /// Forward of the transom.
    pub station: Option<Length>,
    /// Above the keel line.
    pub height: Option<Length>,
    /// To starboard of the centreline.
    pub side: Option<Length>,
}

/// A tank.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tank {
    /// A short name for cases and changes.
    pub id: Option<String>,
    /// What it is.
    pub item: Option<String>,
    /// What it holds.
    pub fluid: Option<Fluid>,
    /// Density of what it holds.
    pub density: Option<Density>,
    /// What it holds when full.
    pub capacity: Option<Volume>,
    /// How full it is.
    pub fill: Option<Share>,
    /// Forward of the transom.
    pub station: Option<Length>,
    /// Above the keel line.
    pub height: Option<Length>,
    /// To starboard of the centreline.
    pub side: Option<Length>,
}

/// What scales say of the loaded trailer.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Measured {
    /// Trailer and boat, everything that ball and wheels carry.
    pub gross_trailer_weight: Option<Weight>,
    /// At the coupler, frame level.
    pub tongue_weight: Option<Weight>,
    /// What each axle carries, front to rear; empty where they have not been weighed apart.
    pub axles: Vec<Option<Weight>>,
}

choice! {
    /// What stands on the scale.
    OnScale {
        /// The tow vehicle's front axle.
        TowFront = "tow-front",
        /// The tow vehicle's rear axle.
        TowRear = "tow-rear",
        /// All axles of the trailer.
        Axles = "axles",
        /// Its first axle.
        Axle1 = "axle-1",
        /// Its second.
        Axle2 = "axle-2",
        /// Its third.
        Axle3 = "axle-3",
        /// Its fourth.
        Axle4 = "axle-4",
        /// Its fifth.
        Axle5 = "axle-5",
        /// Its sixth.
        Axle6 = "axle-6",
        /// The coupler.
        Tongue = "tongue",
        /// Trailer and boat.
        Gross = "gross",
    }
}

impl OnScale {
    /// The trailer's axle that it is, counted from 0, if it is one.
    pub fn axle(self) -> Option<usize> {
        let axles = [Self::Axle1, Self::Axle2, Self::Axle3, Self::Axle4, Self::Axle5, Self::Axle6];
        axles.iter().position(|axle| *axle == self)
    }

    /// Whether it is one of the trailer's axles, or all of them.
    pub fn is_on_axles(self) -> bool {
        self == Self::Axles || self.axle().is_some()
    }
}

/// One reading of a scale.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Weighing {
    /// What stood on the scale.
    pub what: Option<OnScale>,
    /// What it showed.
    pub weight: Option<Weight>,
    /// Whether trailer and tow vehicle were coupled.
    pub coupled: Option<bool>,
    /// The name of the case it was loaded as; none is the first.
    pub case: Option<String>,
    /// The ball's height then; none is the tow vehicle's.
    pub ball_height: Option<Length>,
    /// How far aft the boat was moved for it.
    pub boat: Option<Length>,
}

impl Measured {
    /// What all axles carry together, where they have been weighed apart.
    pub fn on_axles(&self) -> Option<Weight> {
        (!self.axles.is_empty()).then(|| self.axles.iter().copied().sum())?
    }

    /// Trailer and boat: as weighed, else by what axles and tongue carry.
    pub fn gross(&self) -> Option<Weight> {
        self.gross_trailer_weight.or_else(|| Some(self.on_axles()? + self.tongue_weight?))
    }
}

/// The trailer.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Trailer {
    /// Its own weight.
    pub weight: Option<Weight>,
    /// What it may carry: its GVWR less its own weight.
    pub capacity: Option<Weight>,
    /// Tongue weight when empty, on level ground.
    pub tongue_weight: Option<Weight>,
    /// Its own centre of gravity behind the ball.
    pub cg: Option<Length>,
    /// Its own centre of gravity above level ground.
    pub cg_height: Option<Length>,
    /// Gross vehicle weight rating.
    pub gvwr: Option<Weight>,
    /// From the ball to its aft end.
    pub length: Option<Length>,
    /// Its width over all.
    pub width: Option<Length>,
    /// From the ball to where the bow eye comes home.
    pub bow_stop: Option<Length>,
    /// From the ball to the boat's transom.
    pub transom: Option<Length>,
    /// The bow stop above level ground.
    pub bow_stop_height: Option<Length>,
    /// What may push against the bow stop from aft.
    pub bow_stop_rating: Option<Weight>,
    /// The boat's keel above level ground.
    pub keel_height: Option<Length>,
    /// Ball height at which the frame sits level.
    pub level_ball_height: Option<Length>,
    /// How the rig was loaded then.
    pub level_measured: Option<LevelMeasured>,
    /// Between the wheels' centres, side to side.
    pub track: Option<Length>,
    /// Its springs.
    pub suspension: Suspension,
    /// Its axles, front to rear.
    pub axles: Vec<Axle>,
    /// What works its brakes.
    pub brakes: Brakes,
    /// Its coupler.
    pub coupler: Coupler,
    /// Its drawbar.
    pub drawbar: Drawbar,
    /// Its jack.
    pub jack: Jack,
    /// What its frame is made of.
    pub material: Option<Material>,
    /// Its tongue.
    pub tongue: Tongue,
    /// Its frame rails.
    pub rails: Rails,
    /// Centreline to the middle of a frame rail.
    pub rail_half_spacing: Option<Length>,
    /// Its bunks.
    pub bunks: Bunks,
    /// The members across its frame.
    pub crossmembers: Vec<Crossmember>,
    /// Its fenders.
    pub fenders: Fenders,
    /// Its bow bunks.
    pub bow_bunks: BowBunks,
    /// Its side guides.
    pub guides: Guides,
    /// Rollers under the keel.
    pub keel_rollers: KeelRollers,
    /// Its lamps above level ground.
    pub lamps_height: Option<Length>,
    /// Where the skipper stands while launching: on the trailer, above level ground.
    pub skipper: Place,
    /// Its low points.
    pub low_points: Vec<LowPoint>,
    /// Its winch.
    pub winch: Winch,
    /// What ties the boat down.
    pub tie_downs: Vec<TieDown>,
    /// Its safety chains.
    pub safety_chains: SafetyChains,
}

impl Trailer {
    /// Whether an axle has brakes: as the file says, or describes; where it says nothing of any axle, every one that may.
    pub fn is_braked(&self, axle: usize) -> bool {
        let says = |axle: &Axle| axle.braked.or(axle.brakes.kind.map(|_| true));
        says(&self.axles[axle]).unwrap_or(!self.axles.iter().any(|axle| says(axle).is_some()))
    }

    /// The axles that have brakes, by their places.
    pub fn braked_axles(&self) -> impl Iterator<Item = usize> {
        (0..self.axles.len()).filter(|axle| self.is_braked(*axle))
    }

    /// Whether the file says of some axle whether it has brakes.
    pub fn says_what_is_braked(&self) -> bool {
        self.axles.iter().any(|axle| axle.braked.is_some() || axle.brakes.kind.is_some())
    }

    /// Whether nothing says that the springs and tires of one axle differ from another's.
    pub fn has_axles_alike(&self) -> bool {
        let sprung = |axle: &Axle| {
            let tires = &axle.tires;
            (axle.spring_rating.or(axle.rating), tires.rate, tires.count)
        };
        self.axles.windows(2).all(|pair| sprung(&pair[0]) == sprung(&pair[1]))
    }
}

/// How the axles are sprung.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Suspension {
    /// What kind.
    pub kind: Option<SuspensionKind>,
    /// Its deflection under the axle's rating.
    pub deflection_at_rating: Option<Length>,
    /// Travel of an equalizer's end, each way.
    pub equalizer_travel: Option<Length>,
    /// The deflection at which it bottoms.
    pub bump: Option<Length>,
    /// Length of a leaf spring between its ends.
    pub spring_length: Option<Length>,
    /// Height above ground of the spring's end that holds the axle.
    pub eye_height: Option<Length>,
    /// Radius rods on each side of an axle.
    pub radius_rods: Option<RadiusRods>,
    /// What holds the axle behind an equalizer along the frame.
    pub thrust: Option<Thrust>,
    /// How far the pin that takes an axle's thrust lies below the equalizer's pivot.
    pub pin_drop: Option<Length>,
    /// From an equalizer's pivot to its end.
    pub pin_arm: Option<Length>,
    /// Length of a torsion arm along the frame.
    pub arm: Option<Length>,
    /// Height of a torsion axle's tube above ground.
    pub pivot_height: Option<Length>,
}

/// What works the trailer's brakes.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Brakes {
    /// What it is.
    pub kind: Option<BrakeSystem>,
    /// What brakes the actuator is made for.
    pub made_for: Option<BrakeType>,
    /// The lightest trailer that it is made for.
    pub least_gross: Option<Weight>,
    /// The heaviest trailer that it is made for.
    pub greatest_gross: Option<Weight>,
    /// Tongue weight it may hold.
    pub tongue_rating: Option<Weight>,
    /// Bore of its master cylinder.
    pub bore: Option<Length>,
    /// How many times the push acts on the master piston.
    pub leverage: Option<f64>,
    /// What is left of a push after friction.
    pub efficiency: Option<Share>,
    /// How far the master piston can travel.
    pub stroke: Option<Length>,
    /// Rubber hose in the lines, all together.
    pub hose: Option<Length>,
    /// Push that spring and friction hold back.
    pub preload: Option<Weight>,
    /// The same as a share of the gross trailer weight.
    pub preload_share: Option<Share>,
    /// Pressure at which a valve stops its rising.
    pub pressure_max: Option<Pressure>,
    /// Push down to which the actuator holds its pressure.
    pub release_push: Option<Weight>,
    /// Friction of an actuator that holds no pressure.
    pub slide_friction: Option<Weight>,
    /// Brake force for each unit of push.
    pub gain: Option<f64>,
    /// Share of full force in a stop.
    pub setting: Option<Share>,
    /// The fluid in the lines.
    pub fluid: Option<BrakeFluid>,
    /// What keeps the brakes off while backing up.
    pub reverse: Option<Reverse>,
    /// Whether a breakaway cable sets the brakes.
    pub breakaway: Option<bool>,
}

impl Brakes {
    /// Whether there are brakes, of a kind that is stated.
    pub fn are_described(&self) -> bool {
        self.kind.is_some_and(|kind| kind != BrakeSystem::None)
    }

    /// Whether fluid works them.
    pub fn are_hydraulic(&self) -> bool {
        matches!(self.kind, Some(BrakeSystem::Surge | BrakeSystem::ElectricHydraulic))
    }
}

/// The brakes of one axle, each wheel's alike.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct AxleBrakes {
    /// What they are.
    pub kind: Option<WheelBrakeKind>,
    /// Diameter of a piston.
    pub piston: Option<Length>,
    /// How many of them on one side, or at one end.
    pub pistons: Option<f64>,
    /// How the caliper clamps.
    pub caliper: Option<Caliper>,
    /// Where they drag, from the hub.
    pub radius: Option<Length>,
    /// Friction of the pads.
    pub friction: Option<Share>,
    /// Drag of a drum's shoes over the force of one piston.
    pub factor: Option<f64>,
    /// Travel of a piston until it grips.
    pub travel: Option<Length>,
    /// Weight of the disc or drum.
    pub weight: Option<Weight>,
    /// Whether the hub is in the same casting.
    pub one_piece: Option<bool>,
    /// Diameter of the disc.
    pub diameter: Option<Length>,
    /// Rise of the fluid's temperature as a share of the disc's.
    pub caliper_share: Option<Share>,
    /// Full force of an electric brake at the ground.
    pub force: Option<Weight>,
}

/// One axle with its tires and wheels.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Axle {
    /// Behind the ball.
    pub station: Option<Length>,
    /// Gross axle weight rating.
    pub rating: Option<Weight>,
    /// Rating of its springs together.
    pub spring_rating: Option<Weight>,
    /// Weight of axle, wheels and tires.
    pub weight: Option<Weight>,
    /// Whether it has brakes.
    pub braked: Option<bool>,
    /// Its brakes.
    pub brakes: AxleBrakes,
    /// Its tires.
    pub tires: Tires,
    /// Rating of each wheel.
    pub wheel_rating: Option<Weight>,
}

/// The tires of one axle.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tires {
    /// The size on the sidewall.
    pub size: Option<String>,
    /// What they are for.
    pub kind: Option<TireKind>,
    /// How they are built.
    pub construction: Option<Construction>,
    /// How many stand on the axle.
    pub count: Option<u32>,
    /// What each may carry, from the sidewall.
    pub rating: Option<Weight>,
    /// Cold inflation pressure.
    pub pressure: Option<Pressure>,
    /// The pressure at which the rating holds, and the greatest allowed.
    pub pressure_max: Option<Pressure>,
    /// The power of the pressure with which the load that they carry falls.
    pub pressure_exponent: Option<Share>,
    /// The load index on the sidewall.
    pub load_index: Option<u32>,
    /// The speed symbol on the sidewall.
    pub speed_symbol: Option<SpeedSymbol>,
    /// Week and year moulded in.
    pub date: Option<String>,
    /// The fender above the hub, loaded.
    pub fender: Option<Length>,
    /// Hub to ground, loaded.
    pub radius: Option<Length>,
    /// Rate of each tire.
    pub rate: Option<Rate>,
}

/// The trailer's coupler.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Coupler {
    /// Gross trailer weight it may hold.
    pub rating: Option<Weight>,
    /// Tongue weight it may hold.
    pub tongue_rating: Option<Weight>,
    /// The ball its socket takes.
    pub ball_size: Option<Length>,
    /// D on its plate.
    pub d_value: Option<Weight>,
}

/// The drawbar between coupler and axles, by its plate.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Drawbar {
    /// Pull between tow vehicle and trailer.
    pub d_value: Option<Weight>,
    /// Pull between tow vehicle and what the trailer's axles carry.
    pub dc_value: Option<Weight>,
    /// What may shake it up and down.
    pub v_value: Option<Weight>,
    /// Tongue weight it may hold.
    pub tongue_rating: Option<Weight>,
    /// Length of the body that the trailer's axles carry.
    pub body: Option<Length>,
}

impl Drawbar {
    /// Whether the file describes a drawbar at all.
    pub fn is_described(&self) -> bool {
        *self != Self::default()
    }
}

/// The tongue jack.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Jack {
    /// What it may lift.
    pub rating: Option<Weight>,
    /// Behind the ball.
    pub station: Option<Length>,
}

/// The tongue, as it bends.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Tongue {
    /// The section modulus of all its members together.
    pub section_modulus: Option<Volume>,
    /// Yield stress of its metal.
    pub yield_stress: Option<Pressure>,
    /// Whether it is welded where it is held.
    pub weld: Option<bool>,
    /// From the ball to where it is held, of two clamps to the forward one.
    pub held_from: Option<Length>,
    /// Between its two clamps.
    pub clamps: Option<Length>,
    /// What one clamp may hold.
    pub clamp_rating: Option<Weight>,
}

impl Tongue {
    /// Whether the file says how it bends.
    pub fn bends(&self) -> bool {
        self.section_modulus.is_some() || self.yield_stress.is_some() || self.weld.is_some()
    }

    /// Whether the file says that two clamps hold it.
    pub fn is_clamped(&self) -> bool {
        self.clamps.is_some() || self.clamp_rating.is_some()
    }
}

/// The two frame rails, alike.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Rails {
    /// The section modulus of one.
    pub section_modulus: Option<Volume>,
    /// Yield stress of their metal.
    pub yield_stress: Option<Pressure>,
    /// Whether they are welded where they are bent most.
    pub weld: Option<bool>,
}

impl Rails {
    /// Whether the file describes them.
    pub fn are_described(&self) -> bool {
        *self != Self::default()
    }
}

/// The pair of bunks that carries the boat.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bunks {
    /// Behind the ball.
    pub aft_end: Option<Length>,
    /// Behind the ball.
    pub forward_end: Option<Length>,
    /// Centreline to each outer edge.
    pub half_spacing: Option<Length>,
    /// Centreline to the port one's outer edge.
    pub port: Option<Length>,
    /// Centreline to the starboard one's outer edge.
    pub starboard: Option<Length>,
    /// The outer upper edge above level ground.
    pub top: Option<Length>,
    /// The board's nominal size.
    pub board: Option<String>,
    /// The board's size across, as it lies.
    pub width: Option<Length>,
    /// The board's size up and down, as it lies.
    pub depth: Option<Length>,
    /// How the boards lie.
    pub lay: Option<Lay>,
    /// Their species and grade.
    pub wood: Option<Wood>,
    /// Allowable bending stress.
    pub bending: Option<Pressure>,
    /// Allowable shear stress.
    pub shear: Option<Pressure>,
    /// Modulus of elasticity.
    pub modulus: Option<Pressure>,
    /// Allowable stress across the grain.
    pub bearing: Option<Pressure>,
    /// Whether they stay dry.
    pub service: Option<Service>,
    /// Packing between crossmember and bunk.
    pub spacer: Option<Length>,
    /// Whether they only lie on their brackets.
    pub lift_off: Option<bool>,
    /// Friction between hull and bunks.
    pub friction: Option<Share>,
    /// What holds them on the crossmembers.
    pub brackets: Brackets,
}

/// The brackets that hold a bunk.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Brackets {
    /// Side load that one may hold.
    pub rating: Option<Weight>,
    /// How many bolts each has through the bunk.
    pub bolts: Option<u32>,
    /// Side load that one bolt may hold in the wood.
    pub bolt_rating: Option<Weight>,
    /// Between a bracket's bolts, along the bunk.
    pub bolt_spacing: Option<Length>,
    /// The bolts above the bunk's lower edge.
    pub bolt_height: Option<Length>,
    /// Their diameter.
    pub bolt_diameter: Option<Length>,
    /// How long the bunk lies on one.
    pub bearing_length: Option<Length>,
    /// Its foot's width, bolt to bolt across the bunk.
    pub foot: Option<Length>,
    /// Upward pull that the foot's inner bolts may hold.
    pub foot_rating: Option<Weight>,
}

/// A member across the frame.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Crossmember {
    /// Behind the ball.
    pub station: Option<Length>,
    /// Its top above level ground where a bunk's bracket stands.
    pub top: Option<Length>,
    /// Its top above level ground under the keel.
    pub centre: Option<Length>,
    /// What it may carry from each bunk.
    pub rating: Option<Weight>,
    /// Its section modulus.
    pub section_modulus: Option<Volume>,
    /// Yield stress of its metal.
    pub yield_stress: Option<Pressure>,
}

/// The fenders.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Fenders {
    /// Centreline to the inner edge.
    pub half_breadth: Option<Length>,
    /// Their top above level ground.
    pub height: Option<Length>,
    /// Behind the ball.
    pub forward_end: Option<Length>,
    /// Behind the ball.
    pub aft_end: Option<Length>,
}

/// The short bunks under the bow.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BowBunks {
    /// Behind the ball.
    pub forward_end: Option<Length>,
    /// Behind the ball.
    pub aft_end: Option<Length>,
    /// Above level ground at the forward end.
    pub forward_top: Option<Length>,
    /// Above level ground at the aft end.
    pub aft_top: Option<Length>,
    /// Whether the boat lies on them too.
    pub bears: Option<bool>,
}

/// The guides beside the hull.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Guides {
    /// The pad's middle above level ground.
    pub height: Option<Length>,
    /// The pad from bottom to top.
    pub size: Option<Length>,
    /// Centreline to the pad's face.
    pub half_spacing: Option<Length>,
    /// Their posts behind the ball.
    pub station: Option<Length>,
    /// The tops of their posts above level ground.
    pub top: Option<Length>,
}

/// A place on the trailer or on the tow vehicle.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Place {
    /// Behind the ball, or behind the tow vehicle's rear axle.
    pub station: Option<Length>,
    /// Above level ground.
    pub height: Option<Length>,
}

/// Rollers on the centreline that bear the keel instead of bunks.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct KeelRollers {
    /// The first behind the ball.
    pub forward_end: Option<Length>,
    /// The last behind the ball.
    pub aft_end: Option<Length>,
}

/// The winch that draws the boat home.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Winch {
    /// What it may pull on the first layer.
    pub rating: Option<Weight>,
    /// Diameter of the bare drum.
    pub core: Option<Length>,
    /// Diameter of the drum's flange.
    pub flange: Option<Length>,
    /// The drum's axis behind the ball.
    pub station: Option<Length>,
    /// The drum's axis above level ground.
    pub height: Option<Length>,
    /// The share of the boat that floats while it pulls.
    pub afloat: Option<Share>,
    /// What turns it.
    pub drive: Option<Drive>,
    /// Turns of the handle to one of the drum.
    pub gear: Option<f64>,
    /// Radius of the handle.
    pub handle: Option<Length>,
    /// What its gear leaves of the work at the handle.
    pub efficiency: Option<Share>,
    /// Its motor's current without load.
    pub no_load_current: Option<Current>,
    /// Speed of the line without load, on the first layer.
    pub no_load_speed: Option<Speed>,
    /// Its motor's current at the rated pull.
    pub rated_current: Option<Current>,
    /// Speed of the line at the rated pull, on the first layer.
    pub rated_speed: Option<Speed>,
    /// What the battery holds.
    pub battery: Option<Charge>,
    /// What it winds up.
    pub strap: WinchStrap,
    /// What it stands on.
    pub post: WinchPost,
}

/// What a winch winds up, from drum to hook.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct WinchStrap {
    /// Strap, wire or rope.
    pub kind: Option<WinchLine>,
    /// All of it.
    pub length: Option<Length>,
    /// Of one layer.
    pub thickness: Option<Length>,
    /// The least breaking strength of strap, hook and shackle.
    pub breaking: Option<Weight>,
    /// Their least working limit.
    pub working: Option<Weight>,
}

/// The post that a winch stands on.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct WinchPost {
    /// Its foot behind the ball.
    pub station: Option<Length>,
    /// Its foot above level ground.
    pub height: Option<Length>,
    /// The moment that it may bear at its foot.
    pub moment: Option<Moment>,
    /// Its section modulus there.
    pub section_modulus: Option<Volume>,
    /// Yield stress of its metal.
    pub yield_stress: Option<Pressure>,
}

/// A breaking strength over the working limit that goes with it. Common practice, no source.
const WORKS_AT: f64 = 3.0;

impl Winch {
    /// Whether the file describes a winch at all.
    pub fn is_described(&self) -> bool {
        let strap = WinchStrap { kind: None, ..self.strap };
        Self { afloat: None, efficiency: None, strap, ..*self } != Self::default()
    }

    /// Whether a handle turns it, as far as the file says, if only where its motor fails.
    pub fn has_handle(&self) -> bool {
        self.is_described()
            && (self.drive != Some(Drive::Electric) || self.gear.is_some() || self.handle.is_some())
    }

    /// Whether a motor turns it, as far as the file says.
    pub fn has_motor(&self) -> bool {
        let current = self.no_load_current.or(self.rated_current);
        let motor = current.is_some() || self.no_load_speed.or(self.rated_speed).is_some();
        self.is_described() && (self.drive != Some(Drive::Hand) || motor)
    }
}

impl WinchStrap {
    /// What it may carry, as stated or as a third of its breaking strength.
    pub fn working(&self) -> Option<Weight> {
        self.working.or_else(|| Some(self.breaking? / WORKS_AT))
    }

    /// Whether it is a flat strap.
    pub fn is_flat(&self) -> bool {
        matches!(self.kind, None | Some(WinchLine::Strap))
    }
}

/// One strap, chain or wire that ties the boat down, or two that are alike.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TieDown {
    /// What it is called.
    pub name: Option<String>,
    /// What it is.
    pub kind: Option<TieDownKind>,
    /// How many are alike; of two one is the other's mirror image.
    pub count: Option<u32>,
    /// Its end on the boat, above the keel line.
    pub boat: TieDownEnd,
    /// Its end on the trailer, above level ground.
    pub trailer: TieDownEnd,
    /// The least working limit of all in its line.
    pub working: Option<Weight>,
    /// The least breaking strength of all in its line.
    pub breaking: Option<Weight>,
    /// Its stretch at its working limit.
    pub stretch: Option<Share>,
    /// Whether it goes over the boat to the other side.
    pub over: Option<bool>,
}

/// One end of a tie-down.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TieDownEnd {
    /// Forward of the transom, or behind the ball.
    pub station: Option<Length>,
    /// Above the keel line, or above level ground.
    pub height: Option<Length>,
    /// To starboard of the centreline.
    pub side: Option<Length>,
}

impl TieDown {
    /// Its stretch at its working limit, as stated or as usual of its kind: strap 5 %, chain 0.5 %, wire 1 %. Common
    /// practice, no source.
    pub fn stretch(&self) -> Share {
        let usual = match self.kind {
            None | Some(TieDownKind::Strap) => 0.05,
            Some(TieDownKind::Chain) => 0.005,
            Some(TieDownKind::Wire) => 0.01,
        };
        self.stretch.unwrap_or_else(|| Share::from_si(usual))
    }
}

/// The chains that hold the trailer if the coupling comes off.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SafetyChains {
    /// How many.
    pub count: Option<u32>,
    /// Breaking strength of each.
    pub breaking: Option<Weight>,
}

/// The two nominal sizes, in inches, that a board is sold by, if it is a size that is sold.
pub fn nominal_size(text: &str) -> Option<[u32; 2]> {
    let (one, other) = text.split_once(['x', 'X', '×'])?;
    let size = |text: &str| text.trim().parse().ok().filter(|size| matches!(size, 2 | 4 | 6 | 8 | 10 | 12));
    Some([size(one)?, size(other)?])
}

impl Bunks {
    /// Whether the file describes bunks at all.
    pub fn are_described(&self) -> bool {
        let described =
            Self { lay: None, service: None, spacer: None, lift_off: None, friction: None, ..self.clone() };
        described != Self::default()
    }

    /// Centreline to the outer edges, port and starboard.
    pub fn half_spacings(&self) -> Option<[Length; 2]> {
        match (self.half_spacing, self.port, self.starboard) {
            (Some(both), None, None) => Some([both, both]),
            (None, Some(port), Some(starboard)) => Some([port, starboard]),
            _ => None,
        }
    }
}

/// The hitch, from receiver to ball.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Hitch {
    /// The receiver on the tow vehicle.
    pub receiver: Receiver,
    /// The ball mount in it.
    pub ball_mount: BallMount,
    /// The ball.
    pub ball: Ball,
    /// Bars that distribute weight.
    pub weight_distribution: WeightDistribution,
}

/// Bars that distribute weight, by one of two figures.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct WeightDistribution {
    /// Their moment.
    pub moment: Option<Moment>,
    /// Their share of what the tow vehicle's front axle loses to the tongue.
    pub restored: Option<Share>,
}

impl Hitch {
    /// The parts that are said not to be there, by name.
    pub fn absent(&self) -> impl Iterator<Item = &'static str> {
        let parts = [
            ("receiver", self.receiver.absent),
            ("ball mount", self.ball_mount.absent),
            ("ball", self.ball.absent),
        ];
        parts.into_iter().filter(|(_, absent)| absent.is_some()).map(|(name, _)| name)
    }
}

/// The receiver.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Receiver {
    /// That there is none.
    pub absent: Option<Absent>,
    /// Gross trailer weight it may tow.
    pub rating: Option<Weight>,
    /// Tongue weight it may hold.
    pub tongue_rating: Option<Weight>,
    /// Its tube's inside size.
    pub tube: Option<Length>,
}

/// The ball mount.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BallMount {
    /// That there is none.
    pub absent: Option<Absent>,
    /// Gross trailer weight it may tow.
    pub rating: Option<Weight>,
    /// Tongue weight it may hold.
    pub tongue_rating: Option<Weight>,
    /// Its shank's size.
    pub shank: Option<Length>,
}

/// The ball.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Ball {
    /// That there is none.
    pub absent: Option<Absent>,
    /// Gross trailer weight it may tow.
    pub rating: Option<Weight>,
    /// Its diameter.
    pub diameter: Option<Length>,
    /// Tongue weight it may hold.
    pub tongue_rating: Option<Weight>,
    /// D on its plate.
    pub d_value: Option<Weight>,
}

/// The tow vehicle.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tow {
    /// What it is.
    pub name: Option<String>,
    /// Its front axle load, loaded for the trip, trailer off.
    pub front_axle_load: Option<Weight>,
    /// Its rear axle load, loaded for the trip, trailer off.
    pub rear_axle_load: Option<Weight>,
    /// Between its axles.
    pub wheelbase: Option<Length>,
    /// From its rear axle back to the ball.
    pub ball_overhang: Option<Length>,
    /// The ball above the ground, coupled.
    pub ball_height: Option<Length>,
    /// Gross vehicle weight rating.
    pub gvwr: Option<Weight>,
    /// Front gross axle weight rating.
    pub front_gawr: Option<Weight>,
    /// Rear gross axle weight rating.
    pub rear_gawr: Option<Weight>,
    /// Gross combination weight rating.
    pub gcwr: Option<Weight>,
    /// Gross trailer weight it may tow.
    pub tow_rating: Option<Weight>,
    /// Tongue weight it may hold, by its maker.
    pub tongue_rating: Option<Weight>,
    /// Which axle drives.
    pub driven: Option<Gripping>,
    /// Whether it rides on air springs.
    pub air_suspension: Option<bool>,
    /// Its centre of gravity above ground.
    pub cg_height: Option<Length>,
    /// Tongue weight for each unit that the ball sinks.
    pub hitch_rate: Option<Rate>,
    /// Which axle the parking brake holds.
    pub parking_brake: Option<Gripping>,
    /// The grade that it holds alone, in gear.
    pub holds_in_gear: Option<Slope>,
    /// The rear of its body or bumper.
    pub body_aft: BodyAft,
    /// The end of its tailpipe, behind its rear axle.
    pub tailpipe: Place,
    /// From a rear hub to the ground.
    pub tire_radius: Option<Length>,
    /// How deep the owner lets its rear tires stand in the water.
    pub tire_wet_limit: Option<Length>,
    /// Its low points.
    pub low_points: Vec<LowPoint>,
}

/// The rear of the tow vehicle's body or bumper.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BodyAft {
    /// Behind the rear axle.
    pub station: Option<Length>,
    /// Its top above ground.
    pub height: Option<Length>,
}

/// What the owner asks of the rig.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Policy {
    /// The band for tongue weight as a share of gross trailer weight.
    pub tongue_share: Band,
    /// The share of gross trailer weight that the tongue should carry in the first case, where there is a choice.
    pub preferred_tongue_share: Option<Share>,
    /// The sharpest turn between trailer and tow vehicle on the level.
    pub turn: Option<Angle>,
    /// What bunks may press on the hull with, at their peak.
    pub bunk_pressure: PressureBand,
    /// Least clearance between hull or running gear and trailer.
    pub clearance: Option<Length>,
    /// How far the boat may lie off the centreline while it is loaded.
    pub side_play: Option<Length>,
    /// How far it may be out of line with the bunks then.
    pub loading_trim: Option<Angle>,
    /// How many times their static loads bunks and crossmembers are to bear.
    pub road_factor: Option<f64>,
    /// How far one crossmember may stand out of line under the bunks.
    pub packing_error: Option<Length>,
    /// What one person pushes the boat off with.
    pub push: Option<Weight>,
    /// How far short of the stop the boat may sit down when it comes home.
    pub home_gap: Option<Length>,
    /// Less than this share of a rating left is a thin margin.
    pub thin_margin: Option<Share>,
    /// What the loads follow where scales and items disagree.
    pub trust: Option<Trust>,
    /// Whose published rules make rows.
    pub rules: Option<Rules>,
    /// How large trailer and boat may be on the road.
    pub size: Size,
    /// Checks that must hold.
    pub counts: Vec<String>,
    /// Checks that only advise.
    pub advises: Vec<String>,
}

/// How large trailer and boat may be on the road, by the law where they are towed.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Size {
    /// From the ball aft.
    pub length: Option<Length>,
    /// Across.
    pub width: Option<Length>,
    /// Above ground.
    pub height: Option<Length>,
    /// Of the boat behind the trailer's end.
    pub rear_projection: Option<Length>,
}

/// A band of shares.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Band {
    /// Its lower end.
    pub min: Option<Share>,
    /// Its upper end.
    pub max: Option<Share>,
}

/// A band of pressures.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PressureBand {
    /// Its lower end.
    pub min: Option<Pressure>,
    /// Its upper end.
    pub max: Option<Pressure>,
}

/// One way the rig is loaded.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Case {
    /// Its name.
    pub name: Option<String>,
    /// How full each tank is, where it differs; one entry a tank.
    pub fill: Vec<Option<Share>>,
    /// What is left out.
    pub without: Vec<Part>,
}

impl Case {
    /// Whether a part is aboard.
    pub fn carries(&self, part: Part) -> bool {
        !self.without.contains(&part)
    }
}

/// A part of the boat's load, by its place in the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// An entry of `boat.weights`.
    Weight(usize),
    /// An entry of `boat.tanks`.
    Tank(usize),
}

/// A proposed move, aft positive.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Shift {
    /// Bow stop, winch post and boat.
    pub boat: Option<Length>,
    /// Axles, equalizers, fenders, brakes and the axles' own weight.
    pub axles: Option<Length>,
    /// The tongue drawn in: everything but coupler, jack, bow stop, winch post and boat comes nearer the ball.
    pub tongue: Option<Length>,
    /// Bunks with their brackets.
    pub bunks: Option<Length>,
    /// Weight left out of the boat in every case, at its centre of gravity.
    pub ashore: Option<Weight>,
}

/// How far each part can go from where it was measured, aft positive.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Travel {
    /// The boat.
    pub boat: Option<Reach>,
    /// The axles.
    pub axles: Option<Reach>,
    /// The tongue.
    pub tongue: Option<Reach>,
    /// The bunks.
    pub bunks: Option<Reach>,
}

/// From one end of a travel to the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// The forward end.
    pub from: Length,
    /// The aft end.
    pub to: Length,
}

impl Setup {
    /// Whether a default stands at a key, because neither the file nor a change says what it is.
    pub fn is_assumed(&self, key: Key) -> bool {
        self.assumed.contains(&key)
    }

    /// The keys at which a default stands.
    pub fn assumed(&self) -> &[Key] {
        &self.assumed
    }

    /// Notes that a change states what a key is.
    pub(super) fn is_stated(&mut self, key: Key) {
        self.assumed.retain(|assumed| *assumed != key);
    }

    /// Whether it describes a hitch or a tow vehicle, the ball's height aside.
    pub fn is_coupled(&self) -> bool {
        self.hitch != Hitch::default() || self.tow.is_described()
    }

    /// Whether the rules of Europe make rows, not those of the United States.
    pub fn is_european(&self) -> bool {
        self.policy.rules == Some(Rules::Europe)
    }

    /// Whether the ball ought to have a plate with the tongue weight that it may hold: in Europe, and where one is stated.
    pub fn has_plate_at_ball(&self) -> bool {
        let ball = self.hitch.ball;
        ball.absent.is_none() && (self.is_european() || ball.tongue_rating.is_some())
    }

    /// The trailer's own weight, as stated or as its GVWR less its capacity.
    pub fn trailer_weight(&self) -> Option<Weight> {
        let trailer = &self.trailer;
        trailer.weight.or_else(|| Some(trailer.gvwr? - trailer.capacity?))
    }

    /// From the ball to the boat's transom, before any shift.
    pub fn transom(&self) -> Option<Length> {
        let trailer = &self.trailer;
        trailer.transom.or_else(|| Some(trailer.bow_stop? + self.boat.bow_eye.station?))
    }

    /// From the ball to where the bow eye comes home, before any shift.
    pub fn eye_at_stop(&self) -> Option<Length> {
        self.trailer.bow_stop.or_else(|| Some(self.trailer.transom? - self.boat.bow_eye.station?))
    }

    /// From the winch's drum to the bow eye at the stop.
    pub fn winch_reach(&self) -> Option<Length> {
        let winch = self.trailer.winch;
        let along = self.eye_at_stop()? - winch.station?;
        let up = winch.height? - self.trailer.keel_height? - self.boat.bow_eye.height?;
        Some(along.hypot(up))
    }

    /// From end to end of a tie-down, before any shift.
    pub fn tie_down_length(&self, tie_down: &TieDown) -> Option<Length> {
        let TieDown { boat, trailer, .. } = tie_down;
        let along = trailer.station? - (self.transom()? - boat.station?);
        let up = trailer.height? - (self.trailer.keel_height? + boat.height?);
        Some(along.hypot(up).hypot(trailer.side? - boat.side?))
    }

    /// From the transom forward, where the contact of bottom and bunks begins and ends as proposed, or `None` where they do
    /// not touch.
    fn contact_along_the_hull(&self) -> Option<[Length; 2]> {
        let (hull, bunks, shift) = (&self.boat.hull, &self.trailer.bunks, self.shift);
        let transom = self.transom()? + shift.boat.unwrap_or_default();
        // A tongue drawn in brings the bunks nearer the ball, and leaves the boat.
        let moved = shift.bunks.unwrap_or_default() - shift.tongue.unwrap_or_default();
        let from = (transom - (bunks.aft_end? + moved)).max(hull.support_from.unwrap_or_default());
        let to = (transom - (bunks.forward_end? + moved)).min(hull.straight_run?);
        (from < to).then_some([from, to])
    }

    /// The least and the greatest deadrise where the bottom lies on the bunks as proposed. One deadrise for all of the
    /// bottom holds wherever the bunks are; of a list only the contact counts.
    pub fn deadrises_on_bunks(&self) -> Option<[Angle; 2]> {
        if self.boat.hull.deadrise_at.is_empty() {
            return self.boat.hull.deadrise.map(|deadrise| [deadrise; 2]);
        }
        let [from, to] = self.contact_along_the_hull()?;
        self.boat.hull.deadrises(from, to)
    }

    /// The keel above level ground by the bunks, where the hull first touches them as it is lowered: z − y tan β, with
    /// `z` and `y` their outer upper edge's height and half-spacing (the mean of the two) and β the least deadrise along
    /// the contact.
    pub fn keel_on_bunks(&self) -> Option<Length> {
        let [port, starboard] = self.trailer.bunks.half_spacings()?;
        let [least, _] = self.deadrises_on_bunks()?;
        Some(self.trailer.bunks.top? - (port + starboard) / 2.0 * least.value.tan())
    }

    /// Whether the file says how the boat is launched: a ramp has water, and the boat a shape or a draft.
    pub fn launches(&self) -> bool {
        let boat = &self.boat;
        let has_shape = !boat.sections.is_empty() || boat.hull.chine.half_breadth.is_some();
        self.ramps.iter().any(Ramp::has_water) && (has_shape || boat.afloat != Afloat::default())
    }

    /// Whether the boat is known from scales only.
    pub fn known_from_scales(&self) -> bool {
        self.measured != Measured::default() && self.boat.weights.is_empty()
    }

    /// Whether anything is known of what is on the trailer.
    pub fn is_loaded(&self) -> bool {
        self.known_from_scales() || !self.boat.weights.is_empty()
    }

    /// Whether scale figures outrank the items: there are none, or the policy trusts the scales.
    pub fn goes_by_scales(&self) -> bool {
        let trusted = self.policy.trust == Some(Trust::Scale) && self.measured != Measured::default();
        trusted || self.known_from_scales()
    }

    /// The id of a part, if it has one.
    pub fn part_id(&self, part: Part) -> Option<&str> {
        match part {
            Part::Weight(i) => self.boat.weights.get(i)?.id.as_deref(),
            Part::Tank(i) => self.boat.tanks.get(i)?.id.as_deref(),
        }
    }

    /// The part of the boat's load with this id.
    pub fn part(&self, id: &str) -> Option<Part> {
        let weights = (0..self.boat.weights.len()).map(Part::Weight);
        let tanks = (0..self.boat.tanks.len()).map(Part::Tank);
        weights.chain(tanks).find(|part| self.part_id(*part) == Some(id))
    }
}

impl Tow {
    /// Whether the file describes a tow vehicle at all.
    pub fn is_described(&self) -> bool {
        // The ball height may have been taken from the trailer's.
        *self != Self { ball_height: self.ball_height, ..Self::default() }
    }
}
