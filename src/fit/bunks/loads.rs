//! What the bunks carry.

use super::hull::{aft_limit, contact, deadrise};
use super::layout::{aft_end, bunks, ends, half_spacings, one_more_crossmember, supports};
use super::timber::{breadth, cut, lay, timber};
use crate::fit::known::{Known, Missing, both, need};
use crate::fit::model::Model;
use crate::mechanics::Body;
use crate::mechanics::bunks::beam::{Beam, BeamError, Bent, Holding, Support, bend};
use crate::mechanics::bunks::wood::Lay;
use crate::mechanics::bunks::{Bed, Bevelled, bearing_pressure, heavier_share, press};
use crate::quantity::{Angle, BendingStiffness, Length, LineLoad, Moment, Pressure, Quantity, Weight};
use crate::rig::Setup;
use crate::rig::inputs::POLICY_PACKING_ERROR;
use uom::si::torque::newton_meter;

/// A bunk may bend by this share of its longest unsupported length. Common practice, no source: wet wood under a
/// lasting load creeps to about twice its first deflection (National Design Specification 3.5.2, from memory).
pub(in crate::fit) const DEFLECTION_SHARE: f64 = 1.0 / 360.0;

/// What the bunks carry in one case.
#[derive(Debug, Clone, PartialEq)]
pub struct BunkLoads {
    /// The boat and all aboard, in the trailer frame.
    pub boat: Known<Body>,
    /// How far the hull reaches aft of its support: from the bunks' aft end to where they could end.
    pub overhang: Known<Length>,
    /// What lies aft of where the bunks' support ends.
    pub stern: Known<Stern>,
    /// What both bunks are pressed with, or `None` where the boat would tip off them.
    pub bed: Known<Option<Bed>>,
    /// The share of the boat that the more heavily loaded bunk carries.
    pub share: Known<f64>,
    /// What that bunk presses on the hull with, or `None` where the boat would tip.
    pub pressure: Known<Option<HullPressure>>,
    /// What the more heavily loaded bunk goes through, or `None` where the boat would tip off it, or it off the
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
    /// The same of those that it reaches, with their stations behind the ball.
    pub supports: Vec<(Length, Weight)>,
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
    /// Its greatest stress from bending up and down with one support out of line by the policy's error, whichever that is,
    /// and up or down.
    pub out_of_line: Known<Pressure>,
    /// Its greatest shear stress.
    pub shear_stress: Known<At<Pressure>>,
}

/// How many times their static loads bunks and crossmembers are to bear.
pub fn road_factor(setup: &Setup) -> f64 {
    setup.policy.road_factor.unwrap_or(1.0)
}

impl Model<'_> {
    pub(in crate::fit) fn on_bunks(&self, case: usize) -> BunkLoads {
        let setup = self.proposed();
        let boat = self.boat(case);
        let ends = both(aft_limit(setup), aft_end(setup));
        let overhang = ends.clone().map(|(limit, aft)| limit - aft);
        let contact = contact(setup);
        let bed = both(contact, boat.clone()).map(|(contact, boat)| press(boat.weight, boat.at.x, contact?));
        let held_to = match &bed {
            Ok(Some(bed)) => Ok(bed.bearing.aft),
            // The hull is held no farther aft than it can bear, however far the bunks reach.
            _ => ends.map(|(limit, aft)| aft.min(limit)),
        };
        let stern = both(held_to, self.parts(case)).map(|(held_to, parts)| stern(&parts, held_to));
        let share = boat.clone().and_then(|boat| share(setup, boat.at.y));
        let laid = both(bed.clone(), share.clone());
        let pressure = both(laid.clone(), bearing(setup)).map(|((bed, share), (breadth, deadrise))| {
            let bed = bed?;
            // Straight from end to end of what bears, or from nothing to the peak: the mean is half their sum.
            let of = |line: LineLoad| bearing_pressure(line * share, breadth, deadrise, lay(setup));
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

/// The breadth that touches, and the deadrise that counts in its pressure: none of a board on edge.
fn bearing(setup: &Setup) -> Known<(Length, Angle)> {
    let deadrise = match lay(setup) {
        Lay::OnEdge => Ok(Angle::from_si(0.0)),
        Lay::Flat => deadrise(setup),
    };
    both(breadth(setup), deadrise)
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
    let elasticity = timber(setup).elasticity.map(|elasticity| elasticity.value);
    let stiffness = both(board.clone(), elasticity)
        .map(|(board, elasticity)| board.section().second_moment.stiffness(elasticity));
    let posts = supports.iter().map(|(_, station)| Support::rigid(*station - ends.forward));
    let held = if bunks(setup).lift_off == Some(true) { Holding::PushOnly } else { Holding::BothWays };
    let beam = Beam {
        length: ends.length(),
        // On rigid supports only the deflection depends on it, and that is then not reported.
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
    let stations = supports.iter().map(|(_, station)| *station).zip(bent.reactions.iter().copied());
    let supports = stations.collect();
    let out_of_line = out_of_line(setup, &beam, &board, stiffness.clone().map(|_| ()));
    Ok(Some(Bunk {
        supports,
        out_of_line,
        ..bent_bunk(&bent, ends.forward, reactions, &board, stiffness.map(|_| ()))
    }))
}

/// The greatest stress from bending up and down with each support in turn higher, then lower, by the policy's error.
fn out_of_line(setup: &Setup, beam: &Beam, board: &Known<Bevelled>, bends: Known<()>) -> Known<Pressure> {
    let ((error, board), ()) = both(both(need(setup, POLICY_PACKING_ERROR), board.clone()), bends)?;
    let mut greatest = Pressure::default();
    for support in 0..beam.supports.len() {
        for lower in [error, -error] {
            let mut packed = beam.clone();
            packed.supports[support] = packed.supports[support].settled(lower);
            let bent = bend(&packed).map_err(|_| Missing::default())?;
            greatest = greatest.max(board.bending_stress(bent.moment.value));
        }
    }
    Ok(greatest)
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
        supports: Vec::new(),
        out_of_line: Err(Missing::default()),
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
