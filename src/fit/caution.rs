//! What a reader must know beside the checks: facts, not words.

use super::assess::Assessment;
use super::bunks;
use super::known::Missing;
use super::launch::Launch;
use super::level::{self, OffLevel};
use super::model::Model;
use super::reason::beyond_travel;
use super::road::size;
use super::slip::{self, Slip};
use super::verdict::Verdict;
use crate::mechanics::{Body, Unsettled};
use crate::quantity::{Angle, Length, Quantity, Share, Weight};
use crate::rig::inputs::{MEASURED_GROSS_TRAILER_WEIGHT, MEASURED_TONGUE_WEIGHT};
use crate::rig::tires::load_of_index;
use crate::rig::{
    Axle, BrakeSystem, BrakeType, Key, Reach, Reverse, Rig, Setup, Size, SuspensionKind, TireKind, Tires,
    WeightDistribution, WheelBrakeKind, WinchLine,
};

/// An equalizer this near its whole travel is at its stop: its displacement is a sum, rounded.
const AT_STOP: f64 = 1.0 - 1e-9;

/// Clamps may come nearer by this share of the distance between them. Common practice, no source.
const NEARER_AT_MOST: f64 = 0.2;

/// One thing to know.
#[derive(Debug, Clone, PartialEq)]
pub enum Caution {
    /// All of it is arithmetic on the file's numbers.
    Screening,
    /// Placards, manuals and law come first.
    PlacardsGovern,
    /// Something is to be changed on the rig.
    QualifiedWork,
    /// The boat is to be moved.
    StandClear,
    /// Tongue weight is negative in a case.
    LiftsTowVehicle(usize),
    /// The lifted axle's figure is not the worst of a ramp.
    LiftedIsNoBound,
    /// Braking is not in the axle loads.
    BrakingNotInAxleLoads,
    /// A proposal lies outside what the file says is possible.
    BeyondTravel {
        /// What is moved.
        part: &'static str,
        /// Where to.
        to: Length,
        /// Where it could go.
        reach: Reach,
    },
    /// Items and scales disagree.
    ScalesDiffer {
        /// The items' gross weight less the scales'.
        weight: Weight,
        /// The items' centre of gravity aft of the scales'.
        aft: Length,
        /// Whether by more than the scales' ±, or than 1 % of a figure for which none is stated.
        beyond: bool,
    },
    /// The items are scaled to what scales say by a factor that one of them can hardly be wrong by.
    ScaledFar(f64),
    /// The axles as weighed apart do not carry what the scales leave for them.
    AxlesOffScales {
        /// What they carry together.
        axles: Weight,
        /// Gross less tongue weight.
        rest: Weight,
    },
    /// The scales put the boat's centre of gravity outside the boat.
    CentreOutsideBoat,
    /// Axles are moved, but not their own weight.
    AxleWeightStays,
    /// The jack's load is only known from below.
    JackLowerBound,
    /// An axle's springs are on their bump stops in a case.
    OnBump {
        /// The axle, counted from 0.
        axle: usize,
        /// The case.
        case: usize,
    },
    /// An equalizer is at its stop in a case, on level ground.
    EqualizerAtStop {
        /// The case.
        case: usize,
    },
    /// The lighter side would lift in a case.
    SideLifts(usize),
    /// A proposal brings the tongue's clamps nearer to each other, so that they hold more.
    ClampsNearer,
    /// The loads on the rails do not balance, so what bends them is not known.
    RailsOutOfBalance,
    /// An equalizer's travel is stated for a suspension without equalizers.
    IdleEqualizerTravel,
    /// Passenger-car tires stand on the trailer.
    PassengerTires,
    /// The rating and the load index of an axle's tires contradict each other.
    TwoTireRatings {
        /// The axle, counted from 0.
        axle: usize,
        /// The rating.
        rating: Weight,
        /// What the load index stands for.
        by_index: Weight,
    },
    /// On a ramp the boat slides off by herself once she is unhooked, the trailer still dry.
    SlidesByHerself(usize),
    /// The trailer nearly floats once the boat is off.
    TrailerNearlyFloats,
    /// On a ramp the trailer's lamps get wet while launching.
    LampsWet(usize),
    /// The file states no size that the law allows, so that none is checked.
    SizeNotStated {
        /// From the ball aft, where it is known.
        length: Option<Length>,
        /// Across, where it is known.
        width: Option<Length>,
        /// Above ground, where it is known.
        height: Option<Length>,
    },
    /// The draft taped afloat is not the one that weights and hull give.
    FloatsOtherwise {
        /// As taped, at the transom.
        taped: Length,
        /// As computed.
        computed: Length,
    },
    /// The tow vehicle's rear axle carries more than its rating, and no more than European rules let it.
    RearAxleOverRating,
    /// Ramps are crossed with the bars of the weight distribution hitch off.
    BarsOffOnRamps,
    /// On a ramp the trailer lifts the tow vehicle.
    LiftsOnRamp {
        /// The ramp.
        ramp: usize,
        /// The case.
        case: usize,
        /// Where.
        at: Length,
    },
    /// On a ramp the trailer does not rest on its wheels.
    StrandedOnRamp {
        /// The ramp.
        ramp: usize,
        /// The case.
        case: usize,
        /// Where.
        at: Length,
        /// What happens.
        why: Unsettled,
    },
    /// On a ramp an axle of the parked tow vehicle lifts: the friction computed there means nothing.
    TowAxleLifts {
        /// The ramp.
        ramp: usize,
        /// The case.
        case: usize,
        /// Where.
        at: Length,
    },
    /// A ramp's profile ends before the tow vehicle is past its last break: nothing that holds so far is sure to hold.
    ProfileTooShort {
        /// The ramp.
        ramp: usize,
        /// How long its last run must be.
        needed: Length,
    },
    /// One crossmember carries most of what a bunk does.
    OneCrossmemberCarriesMost {
        /// The crossmember, counted from 0.
        member: usize,
        /// Its share of the bunk's load.
        share: Share,
    },
    /// A bunk pulls its bracket up, and would leave a crossmember that does not hold it down.
    BunkPullsUp {
        /// The crossmember, counted from 0.
        member: usize,
        /// The case.
        case: usize,
        /// The pull.
        pull: Weight,
    },
    /// The board is of a size that no table of graded lumber covers.
    BeyondLumberTables,
    /// One bunk stands farther out than the other: the boat comes to lie off the centreline or heeled.
    UnevenBunks {
        /// How far off the centreline, if it stays upright.
        off_centre: Length,
        /// How far heeled, if it stays on the centreline.
        heel: Angle,
    },
    /// The bottom twists along the bunks, which touch it all along only when packed by up to this.
    BottomTwists(Length),
    /// The chine's height is not what its half-breadth and the deadrise give.
    ChineOffDeadrise(Length),
    /// The file's keel height is not the one that the bunks give.
    KeelOffBunks(Length),
    /// A bunk would have to be notched over a crossmember.
    BunkThroughCrossmember {
        /// The crossmember, counted from 0.
        member: usize,
        /// How deep.
        by: Length,
    },
    /// A bolt's hole lies off the bunk's board, at or past its end.
    HolePastTheEnd {
        /// The crossmember that the hole is for, counted from 0.
        member: usize,
        /// How far past.
        past: Length,
    },
    /// The bolts' holes lie above the bunk's board, at its inner edge.
    HolesTooHigh {
        /// Above the lower edge.
        height: Length,
        /// How deep the board is there.
        depth: Length,
    },
    /// The actuator is made for another kind of brakes than an axle has.
    ActuatorForOthers {
        /// What it is made for.
        made_for: BrakeType,
    },
    /// Surge brakes come on while the rig backs up.
    BrakesOnInReverse,
    /// No cable sets the brakes if the trailer comes loose, or the file does not say that one does.
    NoBreakaway,
    /// Brakes go under water at a ramp.
    WetLinings,
    /// The winch winds up wire or rope, of which the drum's width would have to be known.
    RopeOnDrum {
        /// Whether it is wire.
        wire: bool,
    },
    /// The winch's drum is too small for its wire.
    SmallCore {
        /// Its diameter.
        core: Length,
        /// The least for this wire.
        least: Length,
    },
    /// The winch's line pulls the bow down as it comes home.
    LinePullsDown(Angle),
    /// The frame does not stand level as towed.
    OffLevel(OffLevel),
    /// A figure of the file is probably another than what it stands for.
    Slip(Slip),
}

impl Caution {
    /// Whether it stands beside the verdict, whatever the checks say: a danger that no check fails for, or figures that
    /// contradict each other.
    pub fn stands_first(&self) -> bool {
        matches!(
            self,
            Self::LiftsOnRamp { .. }
                | Self::TowAxleLifts { .. }
                | Self::StrandedOnRamp { .. }
                | Self::SideLifts(_)
                | Self::ScalesDiffer { beyond: true, .. }
                | Self::ScaledFar(_)
                | Self::AxlesOffScales { .. }
                | Self::TwoTireRatings { .. }
                | Self::ProfileTooShort { .. }
                | Self::CentreOutsideBoat
                | Self::Slip(_)
        )
    }
}

/// Half an inch more, in metres, so that the length needed is none too short once it is rounded.
const NO_SHORTER: f64 = 0.0127;

/// Below half a kilogram, in newtons, weights are shown alike.
const SAME_WEIGHT: f64 = 2.2;
/// Below an eighth of an inch, in metres, places are shown alike.
const SAME_PLACE: f64 = 0.003;

/// A chine this much off its deadrise is worth a word: an inch, in metres.
const CHINE_OFF: f64 = 0.0254;

/// Items that must be multiplied by more or less than this to give back a scale figure are not what was weighed, or
/// the figure is wrong (common practice, no source).
pub(super) const LIKELY_FACTORS: std::ops::RangeInclusive<f64> = 0.8..=1.25;

/// Everything to know about a rig, the screening first.
pub fn cautions(rig: &Rig, model: &Model<'_>, found: &Assessment) -> Vec<Caution> {
    let setup = &rig.proposed();
    let mut cautions = vec![Caution::Screening, Caution::PlacardsGovern];
    cautions.extend(scales(rig, model));
    for (i, case) in found.cases.iter().enumerate() {
        if case.level.as_ref().is_ok_and(|level| level.stance.tongue_weight.si() < 0.0) {
            cautions.push(Caution::LiftsTowVehicle(i));
        }
    }
    cautions.extend(in_cases(setup, found));
    cautions.extend(on_ramps(setup, found));
    cautions.extend(on_bunks(setup, found));
    cautions.extend(on_winch(setup, found));
    cautions.extend(launching(setup, found));
    cautions.extend(travel(setup));
    cautions.extend(level::off_level(rig, &found.cases).map(Caution::OffLevel));
    cautions.extend(slip::slips(rig, model, &found.cases).into_iter().map(Caution::Slip));

    let lost = |missing: &Missing| missing.0.is_empty();
    if found.frames.iter().any(|frame| frame.rails.as_ref().is_err_and(lost)) {
        cautions.push(Caution::RailsOutOfBalance);
    }
    cautions.extend(described(rig));
    cautions.extend(size_not_stated(setup));
    let rear =
        found.check("tow-rear-axle").filter(|row| matches!(row.verdict, Verdict::Pass | Verdict::Thin));
    let rear = rear.and_then(|row| row.load).zip(setup.tow.rear_gawr);
    if rear.is_some_and(|(load, rating)| load.si() > rating.si()) {
        cautions.push(Caution::RearAxleOverRating);
    }
    let outside = found.rows.iter().any(|row| matches!(row.verdict, Verdict::Fail | Verdict::Advise));
    if outside || setup.shift != rig.measured().shift {
        cautions.push(Caution::QualifiedWork);
    }
    cautions.push(Caution::StandClear);
    cautions
}

/// What happens on level ground in one case or another, each reported once.
fn in_cases(setup: &Setup, found: &Assessment) -> Vec<Caution> {
    let mut cautions = Vec::new();
    let travel = setup.trailer.suspension.equalizer_travel.map_or(0.0, Quantity::si);
    for (i, case) in found.cases.iter().enumerate() {
        let Ok(level) = &case.level else { continue };
        let springs = level.stance.spring_forces.iter().zip(&setup.trailer.axles);
        let bumped = springs.enumerate().find(|(_, (force, axle))| {
            let suspension = setup.trailer.suspension;
            let bump = (axle.rating, suspension.bump, suspension.deflection_at_rating);
            matches!(bump, (Some(rating), Some(bump), Some(deflection)) if **force > rating * (bump / deflection))
        });
        if let Some((axle, _)) = bumped
            && !cautions.iter().any(|caution| matches!(caution, Caution::OnBump { .. }))
        {
            cautions.push(Caution::OnBump { axle, case: i });
        }
        let stopped =
            travel > 0.0 && level.stance.equalizers.iter().any(|q| q.si().abs() >= AT_STOP * travel);
        if stopped && !cautions.iter().any(|caution| matches!(caution, Caution::EqualizerAtStop { .. })) {
            cautions.push(Caution::EqualizerAtStop { case: i });
        }
        if level.heavier_side.as_ref().is_ok_and(|share| share.si() > 1.0)
            && !cautions.iter().any(|caution| matches!(caution, Caution::SideLifts(_)))
        {
            cautions.push(Caution::SideLifts(i));
        }
    }
    cautions
}

/// What happens on ramps, each reported once for a ramp.
fn on_ramps(setup: &Setup, found: &Assessment) -> Vec<Caution> {
    let mut cautions = Vec::new();
    for ramp in 0..setup.ramps.len() {
        let crossings = found.ramps.iter().filter(|crossing| crossing.ramp == ramp);
        let ends: Vec<_> =
            crossings.filter_map(|crossing| Some((crossing.case, crossing.peaks.as_ref().ok()?))).collect();
        let lifts = ends.iter().find_map(|(case, peaks)| {
            let least = peaks.as_ref().ok()?.tongue_least;
            (least.value.si() < 0.0).then_some(Caution::LiftsOnRamp { ramp, case: *case, at: least.at })
        });
        let stranded = ends.iter().find_map(|(case, peaks)| {
            let stranded = peaks.as_ref().err()?;
            let (at, why) = (stranded.position, stranded.why);
            Some(Caution::StrandedOnRamp { ramp, case: *case, at, why })
        });
        let lacks = ends.iter().filter_map(|(_, peaks)| peaks.as_ref().ok()?.lacks).reduce(Length::max);
        let last_run = setup.ramps[ramp].profile.last().and_then(|run| run.length);
        let short = last_run.zip(lacks).map(|(last_run, lacks)| Caution::ProfileTooShort {
            ramp,
            needed: last_run + lacks + Length::from_si(NO_SHORTER),
        });
        let tow_lifts = ends.iter().find_map(|(case, peaks)| {
            let least = peaks.as_ref().ok()?.tow_axle_least?;
            (least.value.si() < 0.0).then_some(Caution::TowAxleLifts { ramp, case: *case, at: least.at })
        });
        cautions.extend(lifts.into_iter().chain(tow_lifts).chain(stranded));
        cautions.extend(short);
    }
    cautions
}

/// What bunks do to what holds them, each reported once.
fn on_bunks(setup: &Setup, found: &Assessment) -> Vec<Caution> {
    let mut cautions = Vec::new();
    for (case, on_bunks) in found.bunks.iter().enumerate() {
        let Ok(Some(bunk)) = &on_bunks.bunk else { continue };
        let members = || bunk.reactions.iter().enumerate().filter_map(|(i, load)| Some((i, (*load)?)));
        let total = members().map(|(_, load)| load).sum::<Weight>();
        let most = members().max_by(|(_, a), (_, b)| a.si().total_cmp(&b.si()));
        if let Some((member, load)) = most
            && members().count() > 2
            && load > total / 2.0
            && !cautions.iter().any(|caution| matches!(caution, Caution::OneCrossmemberCarriesMost { .. }))
        {
            cautions.push(Caution::OneCrossmemberCarriesMost { member, share: load / total });
        }
        let least = members().min_by(|(_, a), (_, b)| a.si().total_cmp(&b.si()));
        if let Some((member, load)) = least
            && -load.si() > SAME_WEIGHT
            && !cautions.iter().any(|caution| matches!(caution, Caution::BunkPullsUp { .. }))
        {
            cautions.push(Caution::BunkPullsUp { member, case, pull: -load });
        }
    }
    if !found.bunks.is_empty()
        && let (Some(keel), Some(by_bunks)) = (setup.trailer.keel_height, setup.keel_on_bunks())
        && (keel - by_bunks).abs().si() > bunks::KEEL_OFF
    {
        cautions.push(Caution::KeelOffBunks(keel - by_bunks));
    }
    cautions.extend(shape_of_bottom(setup));
    let supports = bunks::supports(setup).unwrap_or_default();
    let notched = supports.iter().filter_map(|(member, _)| {
        let packing = bunks::packing(setup, *member).ok()?;
        (packing.si() < -SAME_PLACE).then_some((*member, -packing))
    });
    let deepest = notched.max_by(|(_, a), (_, b)| a.si().total_cmp(&b.si()));
    cautions.extend(deepest.map(|(member, by)| Caution::BunkThroughCrossmember { member, by }));
    cautions.extend(holes(setup));
    cautions
}

/// The bolts' holes that miss the board, the farthest off it.
fn holes(setup: &Setup) -> Vec<Caution> {
    let Some(sheet) = bunks::cut_sheet(setup).ok().flatten() else { return Vec::new() };
    let past = sheet.holes.iter().filter_map(|hole| Some((hole.crossmember, sheet.past_the_end(hole)?)));
    let farthest = past.max_by(|(_, a), (_, b)| a.si().total_cmp(&b.si()));
    let past = farthest.map(|(member, past)| Caution::HolePastTheEnd { member, past });
    let depth = sheet.board.inner_depth;
    past.into_iter().chain(sheet.too_high().map(|height| Caution::HolesTooHigh { height, depth })).collect()
}

/// Where the bottom or the bunks are not what the figures take them for.
fn shape_of_bottom(setup: &Setup) -> Vec<Caution> {
    let mut cautions = Vec::new();
    if !setup.trailer.bunks.are_described() {
        return cautions;
    }
    if bunks::is_beyond_the_tables(setup) {
        cautions.push(Caution::BeyondLumberTables);
    }
    let (Some(spacings), Some(deadrise)) = (setup.trailer.bunks.half_spacings(), bunks::deadrise(setup).ok())
    else {
        return cautions;
    };
    let ([port, starboard], slope) = (spacings, deadrise.si().tan());
    let off = starboard - port;
    if off.abs().si() > SAME_PLACE {
        // Upright it lies midway between the two edges; on the centreline the edges meet it at heights that differ.
        let heel = Angle::from_si((off.abs() / (port + starboard)).si() * slope);
        cautions.push(Caution::UnevenBunks { off_centre: off.abs() / 2.0, heel });
    }
    if let Ok(steepest) = bunks::steepest(setup) {
        let gap = port.max(starboard) * (steepest.si().tan() - slope);
        cautions.extend((gap.si() > SAME_PLACE).then_some(Caution::BottomTwists(gap)));
    }
    let chine = setup.boat.hull.chine;
    if let (Some(half_breadth), Some(height)) = (chine.half_breadth, chine.height) {
        let off = height - half_breadth * slope;
        cautions.extend((off.abs().si() > CHINE_OFF).then_some(Caution::ChineOffDeadrise(off)));
    }
    cautions
}

/// A wire's drum is this many times its diameter at least. Common practice, no source.
const CORE_OVER_WIRE: f64 = 10.0;

/// What winds up badly, and a line that pulls down.
fn on_winch(setup: &Setup, found: &Assessment) -> Vec<Caution> {
    let winch = setup.trailer.winch;
    let wire = winch.strap.kind == Some(WinchLine::Wire);
    let rope = !winch.strap.is_flat() && winch.is_described();
    let least = winch.strap.thickness.filter(|_| wire).map(|wire| wire * CORE_OVER_WIRE);
    let small = winch.core.zip(least).filter(|(core, least)| core < least);
    let line = found.winch.first().and_then(|loads| loads.line.clone().ok());
    let down = line.map(|(angle, _)| angle).filter(|angle| angle.si() < 0.0);
    let told = [
        rope.then_some(Caution::RopeOnDrum { wire }),
        small.map(|(core, least)| Caution::SmallCore { core, least }),
        down.map(Caution::LinePullsDown),
    ];
    told.into_iter().flatten().collect()
}

fn travel(setup: &Setup) -> impl Iterator<Item = Caution> {
    beyond_travel(setup).map(|(part, to, reach)| Caution::BeyondTravel { part, to, reach })
}

fn scales(rig: &Rig, model: &Model<'_>) -> Vec<Caution> {
    let mut cautions = Vec::new();
    if let Some((itemised, gross, station)) = model.itemised_and_weighed() {
        let (weight, aft) = (itemised.weight - gross, itemised.at.x - station);
        // What would be shown as nothing is no difference.
        if weight.abs().si() > SAME_WEIGHT || aft.abs().si() > SAME_PLACE {
            let beyond = differ_beyond(rig, model, &itemised);
            cautions.push(Caution::ScalesDiffer { weight, aft, beyond });
        }
    }
    let far = model.scaling().map(|scaling| scaling.factor).filter(|factor| !LIKELY_FACTORS.contains(factor));
    cautions.extend(far.map(Caution::ScaledFar));
    let off = axles_off_scales(rig);
    cautions.extend(off.map(|(axles, rest)| Caution::AxlesOffScales { axles, rest }));
    let setup = &rig.proposed();
    let station = model.boat_station(&setup.cases[0]);
    if let (true, Some(station), Some(length)) = (setup.known_from_scales(), station, setup.boat.length)
        && (station.si() < 0.0 || station > length)
    {
        cautions.push(Caution::CentreOutsideBoat);
    }
    cautions
}

/// Whether items and scales differ by more than the scales' ±, or than 1 % of a figure for which none is stated (common
/// practice, no source): the items' weight is outside what the scale may mean, or their centre of gravity outside where
/// the two figures together may put it.
fn differ_beyond(rig: &Rig, model: &Model<'_>, itemised: &Body) -> bool {
    let scales = &rig.measured().measured;
    let allowed = |key: Key, figure: Option<Weight>| {
        let stated = rig.uncertain().iter().find(|(known, _)| *known == key).map(|(_, bound)| *bound);
        Weight::from_si(stated.unwrap_or(0.01 * figure.map_or(0.0, Quantity::si)))
    };
    let gross = allowed(MEASURED_GROSS_TRAILER_WEIGHT.key(), scales.gross());
    let tongue = allowed(MEASURED_TONGUE_WEIGHT.key(), scales.tongue_weight);
    let corners = [(gross, tongue), (gross, -tongue), (-gross, tongue), (-gross, -tongue)];
    let corners = corners.map(|(gross, tongue)| model.weighed(gross, tongue));
    let corners = || corners.iter().flatten();
    let outside = |value: f64, of: fn(&(Weight, Length)) -> f64| {
        let (least, most) = corners().fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), corner| {
            (least.min(of(corner)), most.max(of(corner)))
        });
        value < least || value > most
    };
    outside(itemised.weight.si(), |corner| corner.0.si())
        || outside(itemised.at.x.si(), |corner| corner.1.si())
}

/// What the axles carry, weighed apart, and what the other scale figures leave for them, where these differ by more than
/// all their ±, or than 1 % where none is stated (common practice, no source).
pub(super) fn axles_off_scales(rig: &Rig) -> Option<(Weight, Weight)> {
    let measured = &rig.measured().measured;
    let (axles, rest) = (measured.on_axles()?, measured.gross_trailer_weight? - measured.tongue_weight?);
    let scales = rig.uncertain().iter().filter(|(key, _)| key.path.starts_with("measured."));
    let stated: f64 = scales.map(|(_, bound)| bound).sum();
    let allowed = if stated > 0.0 { stated } else { 0.01 * rest.si() };
    ((axles - rest).abs().si() > allowed).then_some((axles, rest))
}

/// A draft that differs by more than this from what was taped is another boat's: 2 in, in metres. A tape afloat is good to an
/// inch, a hull by tape to 1.4 in (derived). Common practice, no source.
const DRAFT_OFF: f64 = 2.0 * 0.0254;

/// What to know of launching, each reported once.
fn launching(setup: &Setup, found: &Assessment) -> Vec<Caution> {
    let all = || found.launches.iter().filter_map(|loads| Some((loads.ramp, loads.found().ok()?)));
    let on_ramp =
        |applies: fn(&Launch) -> bool| all().find(|(_, launch)| applies(launch)).map(|(ramp, _)| ramp);
    let lamps_wet = |launch: &Launch| {
        launch.comes_off().is_some_and(|off| off.lamps.as_ref().is_ok_and(|dry| dry.si() <= 0.0))
    };
    // It is taped as she is loaded in the first case.
    let in_first = found.launches.iter().filter(|loads| loads.case == 0).find_map(|loads| loads.found().ok());
    let drafts = setup.boat.afloat.draft.zip(in_first.map(|launch| launch.afloat.transom_draft()));
    let off = drafts.filter(|(taped, computed)| (*taped - *computed).abs().si() > DRAFT_OFF);
    let cautions = [
        off.map(|(taped, computed)| Caution::FloatsOtherwise { taped, computed }),
        on_ramp(Launch::slides_dry).map(Caution::SlidesByHerself),
        on_ramp(|launch| launch.trailer_nearly_floats).map(|_| Caution::TrailerNearlyFloats),
        on_ramp(lamps_wet).map(Caution::LampsWet),
    ];
    cautions.into_iter().flatten().collect()
}

/// How large trailer and boat are, where something of it is known and the file states nothing that the law allows.
fn size_not_stated(setup: &Setup) -> Option<Caution> {
    let [length, width, height] = [size::length, size::width, size::height].map(|size| size(setup).ok());
    let silent = setup.policy.size == Size::default();
    let some = length.or(width).or(height).is_some();
    (silent && some).then_some(Caution::SizeNotStated { length, width, height })
}

/// What follows from the description alone.
fn described(rig: &Rig) -> Vec<Caution> {
    let setup = &rig.proposed();
    let trailer = &setup.trailer;
    let zero = Length::from_si(0.0);
    let axles_moved = setup.shift.axles.is_some_and(|shift| shift != zero);
    let passenger = trailer.axles.iter().any(|axle| axle.tires.kind == Some(TireKind::Passenger));
    let leaf = trailer.suspension.kind.is_some_and(|kind| kind != SuspensionKind::Torsion);
    let braked = trailer.axles.iter().any(|axle| axle.braked == Some(true));
    let brakes = &trailer.brakes;
    let (described, hydraulic) = (brakes.are_described(), brakes.are_hydraulic());
    let is_disc = |axle: &Axle| Some(axle.brakes.kind? == WheelBrakeKind::Disc);
    let others = brakes.made_for.filter(|made_for| {
        let discs = *made_for == BrakeType::Disc;
        trailer.axles.iter().filter_map(is_disc).any(|disc| disc != discs)
    });
    let discs = trailer.axles.iter().filter_map(is_disc).any(|disc| disc);
    let pushed = brakes.kind == Some(BrakeSystem::Surge);
    let frees_itself = match brakes.reverse {
        Some(Reverse::LockOut) => true,
        Some(Reverse::FreeBacking) => !discs,
        Some(Reverse::None) | None => false,
    };
    let cautions = [
        (
            hydraulic && others.is_some(),
            Caution::ActuatorForOthers { made_for: others.unwrap_or(BrakeType::Disc) },
        ),
        (pushed && !frees_itself, Caution::BrakesOnInReverse),
        (described && brakes.breakaway != Some(true), Caution::NoBreakaway),
        (described && !setup.ramps.is_empty(), Caution::WetLinings),
        (trailer.axles.len() > 1 && setup.ramps.is_empty(), Caution::LiftedIsNoBound),
        ((leaf || braked) && !trailer.brakes.are_described(), Caution::BrakingNotInAxleLoads),
        (trailer.jack.rating.is_some() && trailer.jack.station.is_none(), Caution::JackLowerBound),
        (axles_moved && trailer.axles.iter().any(|axle| axle.weight.is_none()), Caution::AxleWeightStays),
        (clamps_come_nearer(rig), Caution::ClampsNearer),
        (passenger, Caution::PassengerTires),
        (rig.has_idle_equalizer_travel(), Caution::IdleEqualizerTravel),
        (
            setup.hitch.weight_distribution != WeightDistribution::default() && !setup.ramps.is_empty(),
            Caution::BarsOffOnRamps,
        ),
    ];
    let cautions = cautions.into_iter().filter(|(applies, _)| *applies).map(|(_, caution)| caution);
    let two_ratings =
        trailer.axles.iter().enumerate().find_map(|(axle, on)| two_tire_ratings(axle, &on.tires));
    cautions.chain(two_ratings).collect()
}

/// Rounding a load index's kilograms to pounds moves it by less than this share; one index more moves it by two to three.
const ROUNDED: f64 = 0.01;

/// A rating and a load index that contradict each other.
fn two_tire_ratings(axle: usize, tires: &Tires) -> Option<Caution> {
    let (rating, by_index) = (tires.rating?, load_of_index(tires.load_index?)?);
    let apart = (rating - by_index).abs() > by_index * ROUNDED;
    apart.then_some(Caution::TwoTireRatings { axle, rating, by_index })
}

/// Whether a proposal takes more than a fifth of the distance between the tongue's clamps.
fn clamps_come_nearer(rig: &Rig) -> bool {
    let apart = |setup: &Setup| setup.trailer.tongue.clamps;
    let both = apart(rig.measured()).zip(apart(rig.proposed()));
    both.is_some_and(|(before, after)| after < before * (1.0 - NEARER_AT_MOST))
}
