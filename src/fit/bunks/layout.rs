//! Where the bunks and the crossmembers stand, as proposed.

use crate::fit::known::{Known, Missing, both, each, known, need};
use crate::mechanics::bunks::Stretch;
use crate::quantity::{Length, Quantity};
use crate::rig::inputs::{
    TRAILER_BOW_BUNKS_AFT_END, TRAILER_BOW_BUNKS_FORWARD_END, TRAILER_BUNKS_AFT_END,
    TRAILER_BUNKS_FORWARD_END, TRAILER_BUNKS_HALF_SPACING, TRAILER_BUNKS_PORT, TRAILER_BUNKS_STARBOARD,
    TRAILER_CROSSMEMBERS_STATION,
};
use crate::rig::{Bunks, Setup};

pub(super) fn bunks(setup: &Setup) -> &Bunks {
    &setup.trailer.bunks
}

/// How far a proposal moves what stays with the frame when the tongue is drawn in.
pub(super) fn frame_shift(setup: &Setup) -> Length {
    -setup.shift.tongue.unwrap_or_default()
}

/// Centreline to the outer edges, port and starboard.
///
/// # Errors
/// The keys that are missing.
pub fn half_spacings(setup: &Setup) -> Known<[Length; 2]> {
    let missing = match (bunks(setup).port, bunks(setup).starboard) {
        // Where one side is stated a spacing of both would contradict it.
        (Some(_), None) => TRAILER_BUNKS_STARBOARD,
        (None, Some(_)) => TRAILER_BUNKS_PORT,
        _ => TRAILER_BUNKS_HALF_SPACING,
    };
    known(bunks(setup).half_spacings(), missing.key())
}

/// Where the bunks lie, as proposed.
///
/// # Errors
/// The keys that are missing.
pub fn ends(setup: &Setup) -> Known<Stretch> {
    let forward = need(setup, TRAILER_BUNKS_FORWARD_END);
    let (forward, aft) = both(forward, aft_end(setup))?;
    Ok(Stretch { forward: forward + bunk_shift(setup), aft })
}

/// Where their aft end lies, as proposed.
pub(super) fn aft_end(setup: &Setup) -> Known<Length> {
    Ok(need(setup, TRAILER_BUNKS_AFT_END)? + bunk_shift(setup))
}

/// How far a proposal moves the bunks along the trailer.
fn bunk_shift(setup: &Setup) -> Length {
    setup.shift.bunks.unwrap_or_default() + frame_shift(setup)
}

/// A crossmember's station, as proposed.
///
/// # Errors
/// The keys that are missing.
pub fn crossmember_station(setup: &Setup, member: usize) -> Known<Length> {
    let station = setup.trailer.crossmembers[member].station;
    Ok(known(station, TRAILER_CROSSMEMBERS_STATION.of(member))? + frame_shift(setup))
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

/// The foremost crossmember under the bow bunks, by its number.
///
/// # Errors
/// The keys that are missing: another crossmember's, where all that the file has stand elsewhere.
pub(in crate::fit) fn under_bow_bunks(setup: &Setup) -> Known<usize> {
    let ends = both(need(setup, TRAILER_BOW_BUNKS_FORWARD_END), need(setup, TRAILER_BOW_BUNKS_AFT_END));
    let members = 0..setup.trailer.crossmembers.len();
    let stations = members.map(|member| crossmember_station(setup, member).map(|station| (member, station)));
    let ((forward, aft), stations) = both(ends, each::<_, Vec<_>>(stations))?;
    let ends = Stretch { forward: forward + frame_shift(setup), aft: aft + frame_shift(setup) };
    let under = stations.into_iter().filter(|(_, station)| ends.contains(*station));
    let foremost = under.reduce(|a, b| if b.1 < a.1 { b } else { a });
    foremost.map(|(member, _)| member).ok_or_else(|| one_more_crossmember(setup))
}

/// Whether the bunks reach a crossmember; taken as so where that is unknown.
pub(in crate::fit) fn is_reached(setup: &Setup, member: usize) -> bool {
    let Ok(ends) = ends(setup) else { return true };
    let mut members = 0..setup.trailer.crossmembers.len();
    crossmember_station(setup, member).is_ok_and(|station| ends.contains(station))
        || members.any(|member| crossmember_station(setup, member).is_err())
}

/// The longest stretch of a bunk between supports; an overhang counts twice.
pub(in crate::fit) fn longest_span(setup: &Setup) -> Known<Length> {
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
pub(super) fn one_more_crossmember(setup: &Setup) -> Missing {
    let stated = setup.trailer.crossmembers.len();
    let missing = |member: usize| Missing::key(TRAILER_CROSSMEMBERS_STATION.of(member));
    if stated == 0 { missing(0).and(missing(1)) } else { missing(stated) }
}
