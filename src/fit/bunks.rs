//! A rig's bunks: where they touch the hull, what they carry, and what clears what.

mod checks;

pub(super) use checks::CHECKS;

use super::cut_sheet;
use super::known::{Known, Missing, both, each, need, need_of};
use super::loads::Model;
use super::placement::transom_station;
use crate::mechanics::Body;
use crate::mechanics::beam::{Beam, BeamError, Bent, Holding, Support, bend};
use crate::mechanics::bunks::{
    Bed, Beside, Bevelled, Fender, Gap, Standing, Stretch, bearing_pressure, crossmember_moment, gap,
    heavier_share, press, side_thrust,
};
use crate::mechanics::wood::{self, Adjusted, Board, LoadDuration, Lumber, Use};
use crate::quantity::{Angle, BendingStiffness, Length, LineLoad, Moment, Pressure, Quantity, Weight};
use crate::rig::{Bunks, Crossmember, Fenders, Lay, Service, Setup, Wood, nominal_size};
use uom::si::torque::newton_meter;

/// Of a steel beam's yield stress this share is allowed in bending: 1 / 1.67.
///
/// Source: AISC 360, allowable strength design, safety factor for flexure; from memory.
const OF_YIELD: f64 = 1.0 / 1.67;
/// A bunk may bend by this share of its longest unsupported length. Common practice, no source: wet wood under a
/// lasting load creeps to about twice its first deflection (National Design Specification 3.5.2, from memory).
pub(super) const DEFLECTION_SHARE: f64 = 1.0 / 360.0;
/// A keel this much off what the bunks give contradicts them: half an inch, in metres. Common practice, no source.
pub(super) const KEEL_OFF: f64 = 0.0127;

/// What the bunks carry in one case.
#[derive(Debug, Clone, PartialEq)]
pub struct BunkLoads {
    /// The boat and all aboard, in the trailer frame.
    pub boat: Known<Body>,
    /// How far the hull reaches aft of its support: from the bunks' aft end to where they could end.
    pub overhang: Known<Length>,
    /// What lies aft of where the bunks' support ends.
    pub stern: Known<Stern>,
    /// What both bunks are pressed with; none where the boat would tip off them.
    pub bed: Known<Option<Bed>>,
    /// The share of the boat that the more heavily loaded bunk carries.
    pub share: Known<f64>,
    /// What that bunk presses on the hull with; none where the boat would tip.
    pub pressure: Known<Option<HullPressure>>,
    /// What the more heavily loaded bunk goes through; none where the boat would tip off it, or it off the
    /// crossmembers.
    pub bunk: Known<Option<Bunk>>,
}

/// What a bunk presses on the hull with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HullPressure {
    /// In the mean, where it bears.
    pub mean: Pressure,
    /// At its greatest.
    pub peak: Pressure,
}

/// What hangs out aft of where the bunks bear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stern {
    /// All items and tanks that lie there.
    pub weight: Weight,
    /// Their moment about the aft end of what bears.
    pub moment: Moment,
}

/// A value and where along the trailer it occurs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct At<Q> {
    /// The value.
    pub value: Q,
    /// Behind the ball.
    pub station: Length,
}

/// One bunk under its share of the boat.
#[derive(Debug, Clone, PartialEq)]
pub struct Bunk {
    /// What each crossmember carries from it, by crossmember; none of those that it does not reach.
    pub reactions: Vec<Option<Weight>>,
    /// Its greatest bending moment; positive where it sags.
    pub moment: At<Moment>,
    /// Its greatest shear.
    pub shear: At<Weight>,
    /// Its greatest deflection, positive down.
    pub deflection: Known<At<Length>>,
    /// How far it bends there in all, the vee's side thrust included.
    pub whole_deflection: Known<Length>,
    /// Its greatest stress from bending up and down.
    pub stress: Known<At<Pressure>>,
    /// The stress that the vee's side thrust adds at the same place.
    pub side_stress: Known<Pressure>,
    /// Its greatest shear stress.
    pub shear_stress: Known<At<Pressure>>,
}

/// What a board may be stressed to.
#[derive(Debug, Clone, PartialEq)]
pub struct Allowable {
    /// The stress, or the modulus of elasticity.
    pub value: Pressure,
    /// How it follows from the grade's design value; none where the file states it.
    pub adjusted: Option<Adjusted>,
}

/// What the bunks' wood may bear.
#[derive(Debug, Clone, PartialEq)]
pub struct Timber {
    /// In bending.
    pub bending: Allowable,
    /// In shear along the grain.
    pub shear: Allowable,
    /// Its modulus of elasticity.
    pub elasticity: Allowable,
}

/// The line along the hull that a bunk's outer edge lies nearest to.
#[derive(Debug, Clone, PartialEq)]
pub struct Landing {
    /// The strake's name; none is the chine.
    pub strake: Option<String>,
    /// How far outside the line the edge lies; negative inside.
    pub miss: Length,
}

/// The clearances of the hull beside a fender.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BesideFender {
    /// The boat on its bunks, on the centreline.
    pub at_rest: Length,
    /// While it is loaded, with the play and trim that the policy states.
    pub loading: Option<Length>,
}

impl BesideFender {
    /// The lesser of both.
    pub fn least(self) -> Length {
        self.loading.map_or(self.at_rest, |loading| loading.min(self.at_rest))
    }
}

/// How far a proposal moves what stays with the frame when the tongue is drawn in.
fn frame_shift(setup: &Setup) -> Length {
    -setup.shift.tongue.unwrap_or_default()
}

fn bunks(setup: &Setup) -> &Bunks {
    &setup.trailer.bunks
}

/// The deadrise that the bunks are cut to: the least where they may bear.
///
/// # Errors
/// The keys that are missing.
pub fn deadrise(setup: &Setup) -> Known<Angle> {
    need(setup.boat.hull.least_deadrise(), "boat.hull.deadrise")
}

/// The deadrise that presses sideways: the greatest where the bunks may bear.
///
/// # Errors
/// The keys that are missing.
pub fn steepest(setup: &Setup) -> Known<Angle> {
    need(setup.boat.hull.greatest_deadrise(), "boat.hull.deadrise")
}

/// Centreline to the outer edges, port and starboard.
///
/// # Errors
/// The keys that are missing.
pub fn half_spacings(setup: &Setup) -> Known<[Length; 2]> {
    let missing = match (bunks(setup).port, bunks(setup).starboard) {
        // Where one side is stated a spacing of both would contradict it.
        (Some(_), None) => "trailer.bunks.starboard",
        (None, Some(_)) => "trailer.bunks.port",
        _ => "trailer.bunks.half_spacing",
    };
    need(bunks(setup).half_spacings(), missing)
}

/// Where the bunks lie, as proposed.
///
/// # Errors
/// The keys that are missing.
pub fn ends(setup: &Setup) -> Known<Stretch> {
    let forward = need(bunks(setup).forward_end, "trailer.bunks.forward_end");
    let aft = need(bunks(setup).aft_end, "trailer.bunks.aft_end");
    let (forward, aft) = both(forward, aft)?;
    let moved = setup.shift.bunks.unwrap_or_default() + frame_shift(setup);
    Ok(Stretch { forward: forward + moved, aft: aft + moved })
}

/// The part of the bottom that bunks can bear on, behind the ball.
///
/// # Errors
/// The keys that are missing.
pub fn straight_run(setup: &Setup) -> Known<Stretch> {
    let hull = &setup.boat.hull;
    let end = need(hull.straight_run, "boat.hull.straight_run");
    let (transom, end) = both(transom_station(setup), end)?;
    let at = |station: Length| transom - station;
    Ok(Stretch { forward: at(end), aft: at(hull.support_from.unwrap_or_default()) })
}

/// A crossmember's station, as proposed.
///
/// # Errors
/// The keys that are missing.
pub fn crossmember_station(setup: &Setup, member: usize) -> Known<Length> {
    let station = setup.trailer.crossmembers[member].station;
    Ok(need_of(station, "trailer.crossmembers.*.station", member)? + frame_shift(setup))
}

/// The crossmembers that the bunks reach, by their numbers, with their stations.
///
/// # Errors
/// The keys that are missing.
pub fn supports(setup: &Setup) -> Known<Vec<(usize, Length)>> {
    let members = 0..setup.trailer.crossmembers.len();
    let stations = members.map(|member| crossmember_station(setup, member).map(|station| (member, station)));
    let (ends, stations) = both(ends(setup), each::<_, Vec<_>>(stations))?;
    Ok(stations.into_iter().filter(|(_, station)| ends.contains(*station)).collect())
}

/// Whether the bunks reach a crossmember; so taken where that cannot be told.
pub(super) fn is_reached(setup: &Setup, member: usize) -> bool {
    let found = both(ends(setup), crossmember_station(setup, member));
    found.is_ok_and(|(ends, station)| ends.contains(station)) || supports(setup).is_err()
}

/// Whether a crossmember lies under the boat; so taken where that cannot be told.
pub(super) fn is_under_the_boat(setup: &Setup, member: usize) -> bool {
    let under = || {
        let transom = transom_station(setup).ok()?;
        let length = setup.boat.length.or(setup.boat.bow_eye.station)?;
        let boat = Stretch { forward: transom - length, aft: transom };
        Some(boat.contains(crossmember_station(setup, member).ok()?))
    };
    under().unwrap_or(true)
}

/// The bunks' board across and up and down, as it lies.
fn size(setup: &Setup) -> Known<(Length, Length)> {
    let bunks = bunks(setup);
    let Some(board) = bunks.board.as_deref() else {
        let lacking = if bunks.depth.is_some() { "trailer.bunks.width" } else { "trailer.bunks.board" };
        let width = need(bunks.width, lacking);
        let lacking = if bunks.width.is_some() { "trailer.bunks.depth" } else { "trailer.bunks.board" };
        return both(width, need(bunks.depth, lacking));
    };
    // A file with another size does not read.
    let board = nominal_size(board).and_then(|[one, other]| Board::nominal(one, other));
    let board = need(board, "trailer.bunks.board")?;
    Ok(match bunks.lay {
        Some(Lay::Flat) => (board.width, board.thickness),
        _ => (board.thickness, board.width),
    })
}

/// The bunks' board cut to the hull; none where the bevel would leave nothing of its inner edge.
///
/// # Errors
/// The keys that are missing.
pub fn board(setup: &Setup) -> Known<Option<Bevelled>> {
    let ((breadth, depth), (deadrise, steepest)) = both(size(setup), both(deadrise(setup), steepest(setup)))?;
    let lay = match bunks(setup).lay {
        Some(Lay::Flat) => wood::Lay::Flat,
        _ => wood::Lay::OnEdge,
    };
    Ok(Bevelled::cut(breadth, depth, lay, deadrise, steepest))
}

fn cut(setup: &Setup) -> Known<Bevelled> {
    board(setup)?.ok_or_else(Missing::default)
}

/// What the wood may bear.
///
/// # Errors
/// The keys that are missing.
pub fn timber(setup: &Setup) -> Known<Timber> {
    let bunks = bunks(setup);
    let Some(wood) = bunks.wood else {
        return stated_timber(bunks);
    };
    let lumber = match wood {
        Wood::DouglasFirLarch2 => Lumber::DouglasFirLarch2,
        Wood::SouthernPine2 => Lumber::SouthernPine2,
        Wood::WesternCedar2 => Lumber::WesternCedar2,
    };
    let service = match bunks.service {
        Some(Service::Dry) => wood::Service::Dry,
        _ => wood::Service::Wet,
    };
    let (breadth, depth) = size(setup)?;
    let board = Board { thickness: breadth.min(depth), width: breadth.max(depth) };
    let how = Use { duration: LoadDuration::Permanent, service };
    let values = lumber.design_values(board).and_then(|values| wood::allowed(values, board, how));
    // A caution says that the tables do not cover the size.
    let values = values.map_err(|_| Missing::default())?;
    let allowable = |adjusted: Adjusted| Allowable { value: adjusted.value(), adjusted: Some(adjusted) };
    Ok(Timber {
        bending: allowable(values.bending),
        shear: allowable(values.shear),
        elasticity: allowable(values.elasticity),
    })
}

/// Whether the board is of a size that the tables of graded lumber do not cover.
pub(super) fn is_beyond_the_tables(setup: &Setup) -> bool {
    bunks(setup).wood.is_some() && size(setup).is_ok() && timber(setup).is_err()
}

fn stated_timber(bunks: &Bunks) -> Known<Timber> {
    let stated = [bunks.bending, bunks.shear, bunks.modulus];
    if stated.iter().all(Option::is_none) {
        return Err(Missing::key("trailer.bunks.wood"));
    }
    let allowable = |value, path| need(value, path).map(|value| Allowable { value, adjusted: None });
    let bending = allowable(bunks.bending, "trailer.bunks.bending");
    let shear = allowable(bunks.shear, "trailer.bunks.shear");
    let elasticity = allowable(bunks.modulus, "trailer.bunks.modulus");
    let ((bending, shear), elasticity) = both(both(bending, shear), elasticity)?;
    Ok(Timber { bending, shear, elasticity })
}

/// The longest stretch of a bunk between supports; an overhang counts twice.
pub(super) fn longest_span(setup: &Setup) -> Known<Length> {
    let (ends, mut supports) = both(ends(setup), supports(setup))?;
    supports.sort_by(|(_, a), (_, b)| a.si().total_cmp(&b.si()));
    let (Some((_, first)), Some((_, last))) = (supports.first(), supports.last()) else {
        let stated = setup.trailer.crossmembers.len();
        return Err(if stated < 2 { one_more_crossmember(setup) } else { Missing::default() });
    };
    let spans = supports.windows(2).map(|pair| pair[1].1 - pair[0].1);
    let overhangs = [(*first - ends.forward) * 2.0, (ends.aft - *last) * 2.0];
    Ok(spans.chain(overhangs).fold(Length::default(), Length::max))
}

/// A bunk stands on two crossmembers at least.
fn one_more_crossmember(setup: &Setup) -> Missing {
    let stated = setup.trailer.crossmembers.len();
    let missing = |member: usize| Missing::of("trailer.crossmembers.*.station", member);
    if stated == 0 { missing(0).and(missing(1)) } else { missing(stated) }
}

/// How many times their static loads bunks and crossmembers are to bear.
pub fn road_factor(setup: &Setup) -> f64 {
    setup.policy.road_factor.unwrap_or(1.0)
}

impl Model<'_> {
    pub(super) fn on_bunks(&self, case: usize) -> BunkLoads {
        let setup = self.proposed();
        let boat = self.boat(case);
        let run = straight_run(setup);
        let ends = ends(setup);
        let overhang = both(run.clone(), ends.clone()).map(|(run, ends)| run.aft - ends.aft);
        let contact = both(run.clone(), ends.clone()).map(|(run, ends)| run.overlap(ends));
        let bed = both(contact, boat.clone()).map(|(contact, boat)| press(boat.weight, boat.at.x, contact?));
        let held_to = ends.map(|ends| match (&bed, &run) {
            (Ok(Some(bed)), _) => bed.bearing.aft,
            // The hull is held no farther aft than it can bear, however far the bunks reach.
            (_, Ok(run)) => ends.aft.min(run.aft),
            _ => ends.aft,
        });
        let stern = both(held_to, self.parts(case)).map(|(held_to, parts)| stern(&parts, held_to));
        let share = boat.clone().and_then(|boat| share(setup, boat.at.y));
        let laid = both(bed.clone(), share.clone());
        let pressure = both(laid.clone(), cut(setup)).map(|((bed, share), board)| {
            let bed = bed?;
            // Straight from end to end of what bears, or from nothing to the peak: the mean is half their sum.
            let of =
                |line: LineLoad| bearing_pressure(line * share, board.breadth, board.deadrise, board.lay);
            Some(HullPressure { mean: of((bed.forward + bed.aft) / 2.0), peak: of(bed.peak()) })
        });
        let bunk = match laid {
            Ok((None, _)) => Ok(None),
            Ok((Some(bed), share)) => bunk(setup, &bed, share),
            Err(missing) if setup.trailer.crossmembers.len() < 2 => {
                Err(missing.and(one_more_crossmember(setup)))
            }
            Err(missing) => Err(missing),
        };
        BunkLoads { boat, overhang, stern, bed, share, pressure, bunk }
    }
}

/// The share of the boat on the more heavily loaded bunk, its centre of gravity so far to starboard.
fn share(setup: &Setup, side: Length) -> Known<f64> {
    match bunks(setup).half_spacings() {
        Some([port, starboard]) => Ok(heavier_share(side, port, starboard)),
        None if side.si() == 0.0 => Ok(0.5),
        None => half_spacings(setup).map(|_| 0.5),
    }
}

fn stern(parts: &[Body], end: Length) -> Stern {
    let aft = parts.iter().filter(|part| part.at.x > end);
    let mut stern = Stern { weight: Weight::default(), moment: Moment::default() };
    for part in aft {
        stern.weight += part.weight;
        stern.moment += Moment::new::<newton_meter>((part.weight * (part.at.x - end)).value);
    }
    stern
}

/// The more heavily loaded bunk under its share of a boat.
fn bunk(setup: &Setup, bed: &Bed, share: f64) -> Known<Option<Bunk>> {
    let (ends, supports) = both(ends(setup), supports(setup))?;
    let board = cut(setup);
    let elasticity = timber(setup).map(|timber| timber.elasticity.value);
    let stiffness = both(board.clone(), elasticity)
        .map(|(board, elasticity)| board.section().second_moment.stiffness(elasticity));
    let posts = supports.iter().map(|(_, station)| Support::rigid(*station - ends.forward));
    let held = if bunks(setup).lift_off == Some(true) { Holding::PushOnly } else { Holding::BothWays };
    let beam = Beam {
        length: ends.length(),
        // On rigid supports only the deflection depends on it, and that is then not told.
        stiffness: stiffness.clone().unwrap_or(BendingStiffness(1.0)),
        supports: posts.collect(),
        loads: vec![bed.on_beam(share, ends.forward, ends.length())],
        holding: held,
    };
    let bent = match bend(&beam) {
        Ok(bent) => bent,
        Err(BeamError::Unstable { .. }) if setup.trailer.crossmembers.len() < 2 => {
            return Err(one_more_crossmember(setup));
        }
        // Of several crossmembers not two stand under the bunk, or the load lies beyond them.
        Err(BeamError::Unstable { .. } | BeamError::Tips) => return Ok(None),
        Err(_) => return Err(Missing::default()),
    };
    let mut reactions = vec![None; setup.trailer.crossmembers.len()];
    for ((member, _), reaction) in supports.iter().zip(&bent.reactions) {
        reactions[*member] = Some(*reaction);
    }
    Ok(Some(bent_bunk(&bent, ends.forward, reactions, &board, stiffness.map(|_| ()))))
}

/// What a bent bunk goes through; `deflects` says whether its deflection means anything.
fn bent_bunk(
    bent: &Bent,
    from: Length,
    reactions: Vec<Option<Weight>>,
    board: &Known<Bevelled>,
    deflects: Known<()>,
) -> Bunk {
    let at = |station: Length| from + station;
    let (moment, shear, deflection) = (bent.moment, bent.shear, bent.deflection);
    let stress = |of: &dyn Fn(&Bevelled) -> Pressure| board.as_ref().map(of).map_err(Clone::clone);
    Bunk {
        reactions,
        moment: At { value: moment.value, station: at(moment.station) },
        shear: At { value: shear.value, station: at(shear.station) },
        deflection: deflects
            .clone()
            .map(|()| At { value: deflection.value, station: at(deflection.station) }),
        whole_deflection: both(deflects, board.clone())
            .map(|((), board)| board.whole_deflection(deflection.value.abs())),
        stress: stress(&|board| board.bending_stress(moment.value))
            .map(|value| At { value, station: at(moment.station) }),
        side_stress: stress(&|board| board.side_stress(moment.value)),
        shear_stress: stress(&|board| board.shear_stress(shear.value))
            .map(|value| At { value, station: at(shear.station) }),
    }
}

/// What a crossmember may carry from each bunk: the lesser of its rating and what its section bears.
///
/// # Errors
/// The keys that are missing.
pub fn crossmember_rating(setup: &Setup, member: usize) -> Known<Weight> {
    let stated = setup.trailer.crossmembers[member];
    let by_section = section_rating(setup, member, stated);
    match (stated.rating, by_section) {
        (Some(rating), Ok(by_section)) => Ok(rating.min(by_section)),
        (Some(rating), Err(_)) => Ok(rating),
        (None, by_section) => by_section,
    }
}

/// The load from each bunk that bends a crossmember to its allowable stress.
fn section_rating(setup: &Setup, member: usize, stated: Crossmember) -> Known<Weight> {
    let modulus = need_of(stated.section_modulus, "trailer.crossmembers.*.section_modulus", member);
    let yields = need_of(stated.yield_stress, "trailer.crossmembers.*.yield", member);
    let top = need_of(stated.top, "trailer.crossmembers.*.top", member);
    let rail = need(setup.trailer.rail_half_spacing, "trailer.rail_half_spacing");
    let bunk_top = need(bunks(setup).top, "trailer.bunks.top");
    let steel = both(modulus, yields);
    let shape = both(both(half_spacings(setup), size(setup)), steepest(setup));
    let ((modulus, yields), (((spacings, (breadth, _)), steepest), ((rail, top), bunk_top))) =
        both(steel, both(shape, both(both(rail, top), bunk_top)))?;
    let standings = spacings.map(|outer| Standing {
        bunk: outer - breadth / 2.0,
        rail,
        height: (bunk_top - top).max(Length::default()),
        // Straight, where the file does not say otherwise.
        drop: stated.centre.map_or(Length::default(), |centre| (top - centre).max(Length::default())),
    });
    // The moment grows as the load does: that of one newton tells it for all.
    let unit = Weight::from_si(1.0);
    let worst = standings.map(|standing| crossmember_moment(unit, side_thrust(unit, steepest), standing));
    let a_newton = worst[0].max(worst[1]).value;
    let allowed = modulus.si() * yields.si() * OF_YIELD;
    // Over a rail nothing bends: the rating is then the rail's, which is not asked for.
    Ok(Weight::from_si((allowed / a_newton.max(1e-9)).min(1e9)))
}

/// What one bracket may hold sideways: the lesser of its rating and its bolts'.
pub(super) fn bracket_rating(setup: &Setup) -> Known<Weight> {
    let brackets = bunks(setup).brackets;
    let bolts = both(
        need(brackets.bolts, "trailer.bunks.brackets.bolts"),
        need(brackets.bolt_rating, "trailer.bunks.brackets.bolt_rating"),
    )
    .map(|(bolts, each)| each * f64::from(bolts));
    match (brackets.rating, bolts) {
        (Some(rating), Ok(bolts)) => Ok(rating.min(bolts)),
        (Some(rating), Err(_)) => Ok(rating),
        (None, Ok(bolts)) => Ok(bolts),
        (None, Err(_)) if brackets.bolts.is_none() && brackets.bolt_rating.is_none() => {
            Err(Missing::key("trailer.bunks.brackets.rating"))
        }
        (None, Err(missing)) => Err(missing),
    }
}

/// The lines that the port and the starboard bunk's outer edges land on, the nearest each.
///
/// # Errors
/// The keys that are missing.
pub fn landings(setup: &Setup) -> Known<[Landing; 2]> {
    let hull = &setup.boat.hull;
    let strakes = hull.strakes.iter().filter_map(|strake| Some((strake.name.clone(), strake.half_breadth?)));
    let chine = hull.chine.half_breadth.map(|half_breadth| (None, half_breadth));
    let lines: Vec<(Option<String>, Length)> = strakes.chain(chine).collect();
    let spacings = half_spacings(setup);
    if lines.is_empty() {
        let missing = Missing::of("boat.hull.strakes.*.half_breadth", 0);
        return Err(spacings.map_or_else(|lacking| lacking.and(missing.clone()), |_| missing.clone()));
    }
    Ok(spacings?.map(|edge| {
        let misses = lines.iter().map(|(name, line)| (name, edge - *line));
        let nearest = misses.min_by(|(_, a), (_, b)| a.abs().si().total_cmp(&b.abs().si()));
        let (strake, miss) = nearest.map_or((None, Length::default()), |(name, miss)| (name.clone(), miss));
        Landing { strake, miss }
    }))
}

/// The keel above level ground, for clearances: as the file states it, or what its bunks give where that is lower by
/// more than a tape's error.
///
/// # Errors
/// The keys that are missing.
pub fn safe_keel(setup: &Setup) -> Known<Length> {
    let stated = need(setup.trailer.keel_height, "trailer.keel_height")?;
    let by_bunks = setup.keel_on_bunks().filter(|by_bunks| (stated - *by_bunks).si() > KEEL_OFF);
    Ok(by_bunks.unwrap_or(stated))
}

/// The keel above a crossmember's middle.
///
/// # Errors
/// The keys that are missing.
pub fn keel_clearance(setup: &Setup, member: usize) -> Known<Length> {
    let keel = safe_keel(setup);
    let centre = setup.trailer.crossmembers[member].centre;
    let centre = need_of(centre, "trailer.crossmembers.*.centre", member);
    both(keel, centre).map(|(keel, centre)| keel - centre)
}

/// The least clearance of one of the boat's low points above every crossmember that it passes on its way aft, and
/// above level ground.
///
/// A crossmember is taken straight from its middle to where the bunk's bracket stands.
///
/// # Errors
/// The keys that are missing.
pub fn gear_clearance(setup: &Setup, point: usize) -> Known<Length> {
    let gear = &setup.boat.low_points[point];
    let station = need_of(gear.station, "boat.low_points.*.station", point);
    let height = need_of(gear.height, "boat.low_points.*.height", point);
    let keel = safe_keel(setup);
    let side = gear.side.unwrap_or_default();
    let ((station, height), (keel, transom)) =
        both(both(station, height), both(keel, transom_station(setup)))?;
    let x = transom - station;
    let bottom = keel + height;
    let passed = (0..setup.trailer.crossmembers.len()).map(|member| {
        let (at, top) = both(crossmember_station(setup, member), crossmember_height(setup, member, side))?;
        Ok((at >= x).then_some(bottom - top))
    });
    let clearances: Vec<Option<Length>> = each(passed)?;
    Ok(clearances.into_iter().flatten().fold(bottom, Length::min))
}

/// A crossmember's top above ground, so far from the centreline.
fn crossmember_height(setup: &Setup, member: usize, side: Length) -> Known<Length> {
    let stated = setup.trailer.crossmembers[member];
    let centre = need_of(stated.centre, "trailer.crossmembers.*.centre", member);
    if side.si() == 0.0 {
        return centre;
    }
    let top = need_of(stated.top, "trailer.crossmembers.*.top", member);
    let ((centre, top), spacings) = both(both(centre, top), half_spacings(setup))?;
    let bracket = (spacings[0] + spacings[1]) / 2.0;
    let share = (side.abs() / bracket).min(1.0.into());
    Ok(centre + (top - centre) * share)
}

/// The hull beside the fenders.
///
/// # Errors
/// The keys that are missing.
pub fn beside_fender(setup: &Setup) -> Known<BesideFender> {
    let (at_rest, loading) = fender_gaps(setup)?;
    Ok(BesideFender { at_rest: at_rest.clearance(), loading: loading.map(Gap::clearance) })
}

/// The gaps beside the fenders at rest, and while loading where the policy says how the boat may lie then.
fn fender_gaps(setup: &Setup) -> Known<(Gap, Option<Gap>)> {
    let (hull, fender) = both(beside(setup), fender(setup))?;
    let at_rest = gap(hull, fender, Length::default(), Length::default());
    let policy = &setup.policy;
    let sink = match policy.loading_trim {
        Some(trim) => fender_reach(setup)? * trim.si().tan(),
        None => Length::default(),
    };
    let stated = policy.side_play.is_some() || policy.loading_trim.is_some();
    let loading = stated.then(|| gap(hull, fender, policy.side_play.unwrap_or_default(), sink));
    Ok((at_rest, loading))
}

fn beside(setup: &Setup) -> Known<Beside> {
    let chine = setup.boat.hull.chine;
    let keel = safe_keel(setup);
    let half_breadth = need(chine.half_breadth, "boat.hull.chine.half_breadth");
    let height = need(chine.height, "boat.hull.chine.height");
    let ((keel, deadrise), (chine, chine_height)) =
        both(both(keel, deadrise(setup)), both(half_breadth, height))?;
    let half_beam = setup.boat.beam.map(|beam| beam / 2.0);
    Ok(Beside { keel, deadrise, chine, chine_height, half_beam })
}

fn fender(setup: &Setup) -> Known<Fender> {
    let fenders = setup.trailer.fenders;
    let half_breadth = need(fenders.half_breadth, "trailer.fenders.half_breadth");
    let height = need(fenders.height, "trailer.fenders.height");
    both(half_breadth, height).map(|(half_breadth, height)| Fender { half_breadth, height })
}

/// How far from the middle of the bottom's straight run the fenders reach; the run's own end where their ends are
/// not stated.
fn fender_reach(setup: &Setup) -> Known<Length> {
    let run = straight_run(setup)?;
    let fenders = setup.trailer.fenders;
    let moved = setup.shift.axles.unwrap_or_default() + frame_shift(setup);
    let from_middle = |station: Length| (station + moved - run.middle()).abs();
    let ends = [fenders.forward_end, fenders.aft_end].into_iter().flatten().map(from_middle);
    Ok(ends.reduce(Length::max).unwrap_or(run.length() / 2.0))
}

/// What decides how low the boat may lie.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Decides {
    /// The check of this id.
    Check(String),
    /// The bunks come down on this crossmember, counted from 0.
    Crossmember(usize),
}

/// The lowest that the boat may lie.
#[derive(Debug, Clone, PartialEq)]
pub struct Lowest {
    /// What decides it.
    pub decides: Decides,
    /// How much the boat must rise for it, negative how much it could come down.
    pub rise: Length,
    /// The keel above ground then, where known.
    pub keel: Option<Length>,
    /// The bunks' outer upper edge above ground then, where known.
    pub top: Option<Length>,
    /// The spacer under the bunks then: nothing at the least.
    pub spacer: Length,
}

/// The lowest that the boat may lie for everything to clear; none where nothing asks for a clearance. At rest, but beside
/// the fenders, where loading counts too.
///
/// # Errors
/// The keys that are missing: of several clearances none may be left out.
pub fn lowest(setup: &Setup) -> Known<Option<Lowest>> {
    let Some((decides, rise)) = least_rise(setup)? else { return Ok(None) };
    let keel = safe_keel(setup).ok().map(|keel| keel + rise);
    let spacer = bunks(setup).spacer.unwrap_or_default() + rise;
    // The bunks rise as the boat does, whatever was measured of either.
    let top = bunks(setup).top.map(|top| top + rise);
    let top = top.or_else(|| cut_sheet::top_for(setup, keel?).ok());
    Ok(Some(Lowest { decides, rise, keel, top, spacer: spacer.max(Length::default()) }))
}

fn least_rise(setup: &Setup) -> Known<Option<(Decides, Length)>> {
    let wanted = setup.policy.clearance.unwrap_or_default();
    let members = (0..setup.trailer.crossmembers.len()).filter(|member| is_under_the_boat(setup, *member));
    let keels = members.map(|member| {
        let id = format!("clearance-keel-{}", member + 1);
        Ok((Decides::Check(id), wanted - keel_clearance(setup, member)?))
    });
    let points = setup.boat.low_points.iter().enumerate();
    let gear = points.map(|(point, gear)| {
        let name = crate::rig::slug(gear.name.as_deref().unwrap_or_default());
        let id = format!("clearance-gear-{name}");
        Ok((Decides::Check(id), wanted - gear_clearance(setup, point)?))
    });
    let over_fender = match rise_over_fender(setup) {
        Err(missing) if setup.trailer.fenders != Fenders::default() => return Err(missing),
        rise => rise.ok().flatten(),
    };
    let fender = over_fender.map(|rise| Ok((Decides::Check("clearance-fender".to_string()), rise)));
    let clearances: Vec<(Decides, Length)> = each(keels.chain(gear).chain(fender))?;
    let rise = clearances.into_iter().max_by(|(_, a), (_, b)| a.si().total_cmp(&b.si()));
    let Some(rise) = rise else { return Ok(None) };
    // The bunks cannot come down through what they stand on.
    let packed = supports(setup)?.into_iter();
    let packed =
        packed.map(|(member, _)| Ok((Decides::Crossmember(member), -cut_sheet::packing(setup, member)?)));
    let packed: Vec<(Decides, Length)> = each(packed)?;
    Ok(Some(packed.into_iter().fold(rise, |most, next| if next.1 > most.1 { next } else { most })))
}

/// How much the hull must rise to clear the fenders; none where it clears them sideways.
///
/// # Errors
/// The keys that are missing.
pub(super) fn rise_over_fender(setup: &Setup) -> Known<Option<Length>> {
    let (at_rest, loading) = fender_gaps(setup)?;
    let wanted = setup.policy.clearance.unwrap_or_default();
    let rises = [Some(at_rest), loading].into_iter().flatten().filter_map(|gap| gap.rise_for(wanted));
    Ok(rises.reduce(Length::max))
}
