//! The `place` part of a document: where a part must sit.
//!
//! All shifts are as the file states them, aft or drawn in positive, in the unit of lengths. Every
//! limit names its check, the side of it (`min` or `max`), the case and the ramp. What closes an end is a `limit`,
//! `travel`, `range` (nothing was searched beyond) or `refused`. A limit that is not `mendable` belongs to a row
//! that no shift searched fixes in some case: it takes no part in the windows, and there is then no `answer`.
//! Nor is there one where `fill_in` names keys: without them checks that count were evaluated at some places only, so that
//! there are neither windows, `spot` nor `conflict`.
//!
//! Windows take every value as stated. The spot's `verdict` is the rig's there with every bound at its worst, `sure`
//! whether no check is unsure there, and `unsure` names those that are. Where the place chosen by the values as
//! stated is unsure, `search` gives that shift, what is unsure there, how many spots were `tried`, and from where to
//! where the run of sure spots goes that the spot belongs to. `sure` and `search` are null where no input has a
//! bound, `search` where nothing had to be looked for, and its `run` where no spot tried is sure.

use super::number;
use crate::fit::{Amount, Limit, Side, Standing};
use crate::quantity::{Length, Quantity};
use crate::report::{Subject, words};
use crate::study::interval::Interval;
use crate::study::place::{Closer, Conflict, Held, Placing, Spot, SureSearch, Sureness, Unknown, Window};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Place<'a> {
    key: &'static str,
    answer: bool,
    now: f64,
    range: Range,
    ramps_searched: bool,
    windows: Vec<Open<'a>>,
    spot: Option<Chosen<'a>>,
    conflict: Option<Conflicting<'a>>,
    limits: Vec<OneLimit<'a>>,
    not_checked: Vec<NotChecked<'a>>,
    fill_in: Vec<String>,
}

#[derive(Serialize)]
struct Range {
    from: f64,
    to: f64,
    stated: bool,
}

#[derive(Serialize)]
struct Ends {
    from: f64,
    to: f64,
}

#[derive(Serialize)]
struct Open<'a> {
    from: f64,
    to: f64,
    closed_by: ClosedBy<'a>,
}

#[derive(Serialize)]
struct ClosedBy<'a> {
    from: End<'a>,
    to: End<'a>,
}

#[derive(Serialize)]
struct End<'a> {
    what: &'static str,
    limit: Option<Named<'a>>,
}

/// A limit by its check, side, case and ramp.
#[derive(Serialize)]
struct Named<'a> {
    check: String,
    side: &'static str,
    case: Option<&'a str>,
    ramp: Option<&'a str>,
}

#[derive(Serialize)]
struct Chosen<'a> {
    shift: f64,
    by: f64,
    window: usize,
    before_rounding: f64,
    preferred_tongue_share: Option<f64>,
    most_used: Vec<Option<Tight<'a>>>,
    verdict: &'static str,
    sure: Option<bool>,
    unsure: &'a [String],
    search: Option<Searched<'a>>,
}

#[derive(Serialize)]
struct Searched<'a> {
    as_stated: f64,
    unsure: &'a [String],
    tried: usize,
    run: Option<Ends>,
}

#[derive(Serialize)]
struct Tight<'a> {
    #[serde(flatten)]
    limit: Named<'a>,
    load: Option<f64>,
    margin: Option<f64>,
    used: Option<f64>,
}

/// Null limits where any two hold somewhere together, but not all.
#[derive(Serialize)]
struct Conflicting<'a> {
    limits: Option<[Nearest<'a>; 2]>,
    apart: Option<f64>,
}

#[derive(Serialize)]
struct Nearest<'a> {
    #[serde(flatten)]
    limit: Named<'a>,
    at: f64,
}

#[derive(Serialize)]
struct OneLimit<'a> {
    #[serde(flatten)]
    limit: Named<'a>,
    counts: bool,
    depends: bool,
    mendable: bool,
    holds: Vec<Ends>,
    best_margin: Option<f64>,
    best_at: f64,
}

#[derive(Serialize)]
struct NotChecked<'a> {
    check: &'a str,
    counts: bool,
    missing: Vec<String>,
}

pub(super) fn place<'a>(subject: &Subject<'a>, placing: &'a Placing) -> Place<'a> {
    let length = |length: Length| subject.units.length_number(length);
    Place {
        key: placing.part.path(),
        answer: placing.answers(),
        now: length(placing.now),
        range: Range {
            from: length(placing.range.from),
            to: length(placing.range.to),
            stated: placing.stated,
        },
        ramps_searched: placing.ramps,
        windows: placing.windows.iter().map(|window| open(subject, placing, window)).collect(),
        spot: placing.spot.as_ref().map(|spot| chosen(subject, placing, spot)),
        conflict: placing.conflict.map(|conflict| conflicting(subject, placing, conflict)),
        limits: placing.held.iter().map(|held| one_limit(subject, held)).collect(),
        not_checked: placing.unknown.iter().map(not_checked).collect(),
        fill_in: placing.lacks.iter().map(ToString::to_string).collect(),
    }
}

fn named<'a>(subject: &Subject<'a>, limit: &Limit) -> Named<'a> {
    Named {
        check: limit.id(),
        side: match limit.side {
            Side::Min => "min",
            Side::Max => "max",
        },
        case: limit.case.map(|case| words::case(subject.rig, case)),
        ramp: limit.ramp.map(|ramp| words::ramp(subject.rig, ramp)),
    }
}

fn open<'a>(subject: &Subject<'a>, placing: &Placing, window: &Window) -> Open<'a> {
    let end = |closer: Closer| {
        let (what, limit) = match closer {
            Closer::Limit(i) => ("limit", Some(&placing.held[i].limit)),
            Closer::Range if placing.stated => ("travel", None),
            Closer::Range => ("range", None),
            Closer::Ball => ("ball", None),
            Closer::Refused => ("refused", None),
        };
        End { what, limit: limit.map(|limit| named(subject, limit)) }
    };
    let [from, to] = window.closed_by.map(end);
    let Ends { from: start, to: stop } = ends(subject, window.interval);
    Open { from: start, to: stop, closed_by: ClosedBy { from, to } }
}

fn ends(subject: &Subject<'_>, interval: Interval) -> Ends {
    let length = |length: Length| subject.units.length_number(length);
    Ends { from: length(interval.from), to: length(interval.to) }
}

fn chosen<'a>(subject: &Subject<'a>, placing: &Placing, spot: &'a Spot) -> Chosen<'a> {
    let length = |length: Length| subject.units.length_number(length);
    let tight = |(limit, gap): &(Limit, Standing)| {
        // Where nothing holds there is neither load nor margin.
        let shown = |si: f64| {
            let amount = Amount::from_si(limit.check.measure, si);
            Some(number(amount, subject.units)).filter(|number| number.is_finite())
        };
        Tight {
            limit: named(subject, limit),
            load: gap.value.and_then(shown),
            margin: shown(gap.margin),
            used: gap.used,
        }
    };
    let sureness = spot.sureness.as_ref();
    let searched = |search: &'a SureSearch| Searched {
        as_stated: length(search.as_stated),
        unsure: &search.unsure,
        tried: search.tried,
        run: search.run.map(|run| ends(subject, run)),
    };
    Chosen {
        shift: length(spot.shift),
        by: length(spot.shift - placing.now),
        window: spot.window,
        before_rounding: length(spot.exact),
        preferred_tongue_share: spot.preferred.map(Quantity::si),
        most_used: spot.most_used.iter().map(|most_used| most_used.as_ref().map(tight)).collect(),
        verdict: words::rig_verdict(subject.findings.assessment.verdict),
        sure: sureness.map(Sureness::is_sure),
        unsure: sureness.map(|sureness| &sureness.unsure[..]).unwrap_or_default(),
        search: sureness.and_then(|sureness| sureness.search.as_ref()).map(searched),
    }
}

fn conflicting<'a>(subject: &Subject<'a>, placing: &Placing, conflict: Conflict) -> Conflicting<'a> {
    let length = |length: Length| subject.units.length_number(length);
    let Conflict::Pair { limits: [one, other], ends } = conflict else {
        return Conflicting { limits: None, apart: None };
    };
    let nearest =
        |i: usize, at: Length| Nearest { limit: named(subject, &placing.held[i].limit), at: length(at) };
    Conflicting {
        limits: Some([nearest(one, ends[0]), nearest(other, ends[1])]),
        apart: Some(length((ends[1] - ends[0]).abs())),
    }
}

fn one_limit<'a>(subject: &Subject<'a>, held: &Held) -> OneLimit<'a> {
    OneLimit {
        limit: named(subject, &held.limit),
        counts: held.limit.fails(),
        depends: held.moves,
        mendable: held.fixable,
        holds: held.holds.iter().map(|interval| ends(subject, *interval)).collect(),
        best_margin: held.best.map(|best| number(best, subject.units)),
        best_at: subject.units.length_number(held.best_at),
    }
}

fn not_checked(unknown: &Unknown) -> NotChecked<'_> {
    NotChecked {
        check: &unknown.id,
        counts: unknown.counts,
        missing: unknown.missing.iter().map(ToString::to_string).collect(),
    }
}
