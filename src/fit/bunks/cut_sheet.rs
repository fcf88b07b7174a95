//! What the workshop needs to make and place the bunks: sizes, holes, and where the ends should lie.

use super::hull::{contact, straight_run};
use super::layout::{ends, supports};
use super::loads::BunkLoads;
use super::timber::board;
use crate::fit::known::{Known, both};
use crate::fit::placement::transom_station;
use crate::mechanics::bunks::wood::Lay;
use crate::mechanics::bunks::{Bevelled, Stretch, drop, side_thrust};
use crate::quantity::{Angle, Length, Quantity, Weight};
use crate::rig::Setup;

/// One bunk as it is cut; the other is its mirror image.
#[derive(Debug, Clone, PartialEq)]
pub struct CutSheet {
    /// From end to end.
    pub length: Length,
    /// Its board.
    pub board: Bevelled,
    /// How much lower its inner upper edge is than its outer one.
    pub drop: Length,
    /// The deadrise at the forward and the aft end of the contact, where it differs along it.
    pub winding: Option<[Angle; 2]>,
    /// The bolts' holes.
    pub holes: Vec<Hole>,
    /// The holes above the lower edge, where known.
    pub hole_height: Option<Length>,
}

/// A bolt's hole, or a bracket's middle where it is not known how its bolts stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hole {
    /// The crossmember under it, counted from 0.
    pub crossmember: usize,
    /// From the bunk's forward end.
    pub from_forward_end: Length,
}

impl CutSheet {
    /// How far a hole's middle lies past an end of the board, or `None` where the hole is on it.
    pub fn past_the_end(&self, hole: &Hole) -> Option<Length> {
        let past = (-hole.from_forward_end).max(hole.from_forward_end - self.length);
        (past >= Length::default()).then_some(past)
    }

    /// The holes' height where it is more than the board is deep at its shallower edge: they miss it. A board that lies
    /// flat is drilled from above.
    pub fn too_high(&self) -> Option<Length> {
        let on_edge = self.board.lay == Lay::OnEdge;
        self.hole_height.filter(|height| on_edge && *height >= self.board.inner_depth)
    }
}

/// A deadrise that differs by less than this along the contact is the same, in radians: a twentieth of a degree.
const SAME_ANGLE: f64 = 0.05 * std::f64::consts::PI / 180.0;

/// The sheet that one bunk is cut by, or `None` where the bevel cuts away the board's whole inner edge.
///
/// # Errors
/// The keys that are missing.
pub fn cut_sheet(setup: &Setup) -> Known<Option<CutSheet>> {
    let (ends, board) = both(ends(setup), board(setup))?;
    let Some(board) = board else { return Ok(None) };
    // Without the hull's run there is still a bunk to cut.
    let contact = contact(setup).ok().flatten();
    let supports = supports(setup).unwrap_or_default();
    Ok(Some(CutSheet {
        length: ends.length(),
        board,
        drop: drop(board.breadth, board.deadrise, board.lay),
        winding: contact.and_then(|contact| winding(setup, contact)),
        holes: holes(setup, ends, &supports),
        hole_height: setup.trailer.bunks.brackets.bolt_height,
    }))
}

fn winding(setup: &Setup, contact: Stretch) -> Option<[Angle; 2]> {
    let transom = transom_station(setup).ok()?;
    let at = |x: Length| setup.boat.hull.deadrise(transom - x);
    let [forward, aft] = [at(contact.forward)?, at(contact.aft)?];
    ((forward - aft).abs().si() > SAME_ANGLE).then_some([forward, aft])
}

fn holes(setup: &Setup, ends: Stretch, supports: &[(usize, Length)]) -> Vec<Hole> {
    let brackets = setup.trailer.bunks.brackets;
    let offsets: Vec<Length> = match (brackets.bolts, brackets.bolt_spacing) {
        (Some(bolts @ 2..=20), Some(spacing)) => {
            let middle = f64::from(bolts - 1) / 2.0;
            (0..bolts).map(|bolt| spacing * (f64::from(bolt) - middle)).collect()
        }
        _ => vec![Length::default()],
    };
    let of_bracket = |(crossmember, station): &(usize, Length)| {
        let (crossmember, middle) = (*crossmember, *station - ends.forward);
        offsets.iter().map(move |by| Hole { crossmember, from_forward_end: middle + *by }).collect::<Vec<_>>()
    };
    supports.iter().flat_map(of_bracket).collect()
}

/// The vee's side thrust on the bracket that carries this.
pub fn outward(reaction: Weight, deadrise: Angle) -> Weight {
    side_thrust(reaction, deadrise)
}

/// How much of a bunk's length touches nothing, or bears nothing.
///
/// # Errors
/// The keys that are missing.
pub fn idle(setup: &Setup, on_bunks: &BunkLoads) -> Known<Length> {
    let (ends, bed) = both(ends(setup), on_bunks.bed.clone())?;
    Ok(ends.length() - bed.map(|bed| bed.bearing.length()).unwrap_or_default())
}

/// How the bunks' ends should lie: aft where support can end, and long enough and no longer than what keeps the
/// centre of gravity of every case in the middle third.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WantedEnds {
    /// The aft end behind the ball.
    pub aft: Length,
    /// The forward end of the longest such contact, behind the ball.
    pub forward_from: Length,
    /// The forward end of the shortest one.
    pub forward_to: Length,
}

/// Where the bunks' ends should lie, or `None` where no contact that reaches the transom keeps the centre of gravity of
/// every case in its middle third.
///
/// # Errors
/// The keys that are missing.
pub fn wanted_ends(setup: &Setup, cases: &[BunkLoads]) -> Known<Option<WantedEnds>> {
    let run = straight_run(setup)?;
    let (mut least, mut most) = (Length::default(), run.length());
    for case in cases {
        // A contact from the aft limit of length L holds a centre d ahead of it in its middle third while
        // L / 3 ≤ d ≤ 2 L / 3.
        let ahead = run.aft - case.boat.clone()?.at.x;
        least = least.max(ahead * 1.5);
        most = most.min(ahead * 3.0);
    }
    let wanted = WantedEnds { aft: run.aft, forward_from: run.aft - most, forward_to: run.aft - least };
    Ok((least <= most).then_some(wanted))
}
