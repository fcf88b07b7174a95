//! The report for programs: JSON, schema 1.
//!
//! Every number is in the units named at the top, unrounded and finite; what is unknown is null. Keys
//! are stable: later versions only add.

pub mod baseline;
mod brakes;
mod bunks;
mod changes;
mod compare;
mod frame;
mod launch;
mod place;
mod plan;
mod spec;
mod weigh;
mod winch;

pub use compare::{Unread, compared};
pub use spec::sheet;

use super::{Subject, words};
use crate::fit::{
    Amount, Carried, CaseLoads, Friction, Known, Moved, OnTires, Peak, Peaks, RampLoads, Row, Verdict,
};
use crate::quantity::show::{self, UnitSystem};
use crate::quantity::{Kind, Length, Pressure, Quantity, Slope, Weight};
use crate::rig::{Key, Problems, Rig, Rules};
use crate::study::changes::Changes;
use crate::study::head::Heads;
use crate::study::launch::Launching;
use crate::study::place::Placing;
use crate::study::plan::Plan;
use crate::study::ramp::Crossed;
use crate::study::samples::Rate;
use crate::study::uncertainty::Uncertainty;
use crate::study::weigh::Weighed;
use serde::Serialize;

/// One rig's report on one line.
///
/// # Errors
/// Never in practice: every part of the report can be written as JSON.
pub fn report(subject: &Subject<'_>) -> serde_json::Result<String> {
    serde_json::to_string(&document(subject, &every_crossing(subject), &[]))
}

/// One rig's report over several lines.
///
/// # Errors
/// As [`report`].
pub fn pretty(subject: &Subject<'_>) -> serde_json::Result<String> {
    serde_json::to_string_pretty(&document(subject, &every_crossing(subject), &[]))
}

/// The report of launching: what [`pretty`] writes, with what was assumed for want of keys and how far the marks lie apart.
///
/// `estimate` is null where the file lacks nothing that launching needs. Else its `assumed` are what stands in for the
/// keys, each between `low` and `high`, and its `launches` are as those of the report, in the middle of these.
/// `bands` has an entry a ramp: for each event, and for where she `comes_off`, the least and the greatest depth at the rear
/// wheels by all that is uncertain, and `home`, the depths that hold at all ends. It is empty where nothing is uncertain.
///
/// # Errors
/// As [`report`].
pub fn launched(subject: &Subject<'_>, launching: &Launching) -> serde_json::Result<String> {
    let document = document(subject, &every_crossing(subject), &[]);
    serde_json::to_string_pretty(&launch::Launched::new(document, subject, launching))
}

/// The report of a check, with the plan that goes with it; on one line, or over several.
///
/// `plan` is null where nothing fails. Its `changes` are numbered by the `step` that they belong to, each with its `key`,
/// its texts `from` and `to` as a rig file has them, and `why`; `verdict_after`, `fails_after`, `thin_after`,
/// `worse_after` and `advises_after` are what becomes of the rig, `enough` smaller parts that would pass too, `surest` more weight ashore that leaves less in doubt, `alternatives` other ways to the same verdict, each `instead_of` some
/// steps.
///
/// # Errors
/// As [`report`].
pub fn checked(subject: &Subject<'_>, plan: Option<&Plan>, on_one_line: bool) -> serde_json::Result<String> {
    let document = document(subject, &every_crossing(subject), &[]);
    let document = Document { plan: Some(plan::of_check(plan, subject.units)), ..document };
    if on_one_line { serde_json::to_string(&document) } else { serde_json::to_string_pretty(&document) }
}

/// One rig's report with these crossings of its ramps only, and with heads at other grades.
///
/// # Errors
/// As [`report`].
pub fn crossings(subject: &Subject<'_>, crossed: &[Crossed], heads: &[Heads]) -> serde_json::Result<String> {
    serde_json::to_string_pretty(&document(subject, crossed, heads))
}

/// A rig's report with where one of its parts must sit, in `place`; everything else in it is about the rig at the
/// recommended spot, or as it stands where there is none.
///
/// In `place`, shifts are as the file would state them, aft or drawn in positive, and every limit names its
/// check, side (`min` or `max`), case and ramp:
///
/// * `key` is the shift's, `now` its value, `range` where was looked, `stated` whether the file says so;
/// * `answer` is whether all limits that count and could be checked hold together somewhere;
/// * `windows` are where all that count and are `mendable` hold; what closes an end is a `limit`, the `travel`,
///   the end of the assumed `range`, or that beyond it shifts are `refused`;
/// * `spot` is what to set: the `shift`, how far `by` from now, its `window`, and for each case what is
///   `most_used` there of what the move changes;
/// * `conflict` holds the two limits that conflict, up to where each holds, and how far `apart` that is;
/// * `limits` are all that could be compared, each with where it `holds`, its `best_margin` of all samples, and
///   whether its load `depends` on the shift;
/// * `not_checked` are the rows that could not be made, with the keys to fill in.
///
/// # Errors
/// As [`report`].
pub fn placing(subject: &Subject<'_>, placing: &Placing) -> serde_json::Result<String> {
    let document = document(subject, &every_crossing(subject), &[]);
    serde_json::to_string_pretty(&Document { place: Some(place::place(subject, placing)), ..document })
}

/// What readings of scales say of a rig, in `weighed`; the rig is not checked.
///
/// Figures have a `value`, a `bound` of 2 standard deviations, null where no reading decides it, and what the file gives
/// `as_stated`. `inputs` are what was found, each with its `text` for a rig file; `readings` what was read, what the rig
/// as found would show, and what all the `others` give for it; `not_decided` what no reading decides, with the one
/// that would; `next` the reading that narrows the tongue share most, and the ± that it leaves.
///
/// # Errors
/// As [`report`].
pub fn weighed(path: &str, rig: &Rig, weighed: &Weighed, units: UnitSystem) -> serde_json::Result<String> {
    serde_json::to_string_pretty(&weigh::document(path, rig, weighed, units))
}

/// What differs between two rigs, and what that does: `keys` with what each file says, as it says it, null where it is
/// silent; and the `checks` that stand otherwise, null on the side where there is none.
///
/// # Errors
/// As [`report`].
pub fn changes(old: &Subject<'_>, new: &Subject<'_>, changes: &Changes) -> serde_json::Result<String> {
    serde_json::to_string_pretty(&changes::document(old, new, changes))
}

/// Every ramp in every case, as it was checked.
fn every_crossing(subject: &Subject<'_>) -> Vec<Crossed> {
    let crossed = subject.findings.assessment.ramps.iter().map(|loads| Crossed {
        loads: loads.clone(),
        softer: None,
        stiffer: None,
        others: Vec::new(),
        samples: Vec::new(),
    });
    crossed.collect()
}

/// The line that stands for a file that could not be read or settled.
///
/// # Errors
/// As [`report`].
pub fn error(path: &str, message: &str, problems: Option<&Problems>) -> serde_json::Result<String> {
    serde_json::to_string(&Failed { schema: 1, error: failure(path, message, problems) })
}

fn failure<'a>(path: &'a str, message: &'a str, problems: Option<&'a Problems>) -> Failure<'a> {
    let first = problems.and_then(|problems| problems.list.first().map(|problem| (problems, problem)));
    let place = first.and_then(|(problems, problem)| Some((&problems.sources, problem.at.as_ref()?)));
    let position = place.map(|(sources, at)| sources.position(at));
    Failure {
        path,
        message,
        source: place.map(|(sources, at)| sources.get(at.source).name.as_str()),
        line: position.map(|position| position.line),
        column: position.map(|position| position.column),
    }
}

#[derive(Serialize)]
struct Failed<'a> {
    schema: u32,
    error: Failure<'a>,
}

#[derive(Serialize)]
struct Failure<'a> {
    path: &'a str,
    message: &'a str,
    /// The file or the change in which the first mistake stands.
    source: Option<&'a str>,
    line: Option<usize>,
    column: Option<usize>,
}

/// What every report begins with.
#[derive(Serialize)]
struct Header<'a> {
    schema: u32,
    tool: Tool,
    rig: RigName<'a>,
    units: Units,
}

#[derive(Serialize)]
struct Document<'a> {
    #[serde(flatten)]
    header: Header<'a>,
    verdict: &'static str,
    /// Subjects of which nothing was evaluated.
    not_covered: Vec<&'static str>,
    /// Whether what is uncertain was left out on request.
    as_stated: bool,
    /// Whose published rules make rows.
    rules: &'static str,
    /// What decided the verdict besides rows.
    reasons: Vec<String>,
    /// What to change, of a check.
    #[serde(skip_serializing_if = "Option::is_none")]
    plan: Option<plan::OfCheck>,
    cases: Vec<Case<'a>>,
    checks: Vec<Check<'a>>,
    /// The links from tow vehicle to tires and straps, the weakest first.
    chain: Vec<Link>,
    assumed: Vec<Assumed<'a>>,
    /// What the file states and no check reads.
    informational: Vec<Informational>,
    cautions: Vec<String>,
    ramps: Vec<Ramp<'a>>,
    /// Launching, by ramp and case; left out where the file does not describe it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    launches: Vec<launch::OnRamp<'a>>,
    bunks: Option<bunks::OnBunks<'a>>,
    uncertainty: Option<Uncertain>,
    /// What is done to the items so that they give back the scale figures.
    #[serde(skip_serializing_if = "Option::is_none")]
    scaled: Option<Scaling>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    heads: Vec<Head<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    place: Option<place::Place<'a>>,
}

#[derive(Serialize)]
struct Scaling {
    factor: f64,
    /// Forward, as stations run.
    distance: f64,
}

#[derive(Serialize)]
struct Tool {
    name: &'static str,
    version: &'static str,
}

const TOOL: Tool = Tool { name: env!("CARGO_PKG_NAME"), version: env!("CARGO_PKG_VERSION") };

#[derive(Serialize)]
struct RigName<'a> {
    path: &'a str,
    title: Option<&'a str>,
}

#[derive(Serialize)]
struct Units {
    weight: &'static str,
    length: &'static str,
    angle: &'static str,
    stress: &'static str,
    inflation: &'static str,
    moment: &'static str,
    speed: &'static str,
    current: &'static str,
    charge: &'static str,
    force: &'static str,
}

impl Units {
    fn of(units: UnitSystem) -> Self {
        Self {
            weight: units.weight_unit(),
            length: units.length_unit(),
            angle: "deg",
            stress: show::file_unit(Kind::Stress, units),
            inflation: show::file_unit(Kind::LinePressure, units),
            moment: show::file_unit(Kind::Moment, units),
            speed: show::file_unit(Kind::Speed, units),
            current: show::file_unit(Kind::Current, units),
            charge: show::file_unit(Kind::Charge, units),
            force: show::file_unit(Kind::Force, units),
        }
    }
}

#[derive(Serialize)]
struct Case<'a> {
    name: &'a str,
    gross_trailer_weight: Option<f64>,
    boat_weight: Option<f64>,
    cg: Centre,
    pitch: Option<f64>,
    tongue_weight: Option<f64>,
    tongue_share: Option<f64>,
    axles: Vec<Axle>,
    /// By axle.
    tires: Vec<Tires>,
    lifted_axle: Option<Lifted>,
    tow: Option<Tow>,
    /// What the brakes do; left out where the file says nothing of them.
    #[serde(skip_serializing_if = "Option::is_none")]
    brakes: Option<brakes::Brakes>,
    /// What the winch does; left out where the file describes none.
    #[serde(skip_serializing_if = "Option::is_none")]
    winch: Option<winch::Winch<'a>>,
    /// What the tie-downs hold; left out where the file describes none.
    #[serde(skip_serializing_if = "Option::is_none")]
    tie_downs: Option<winch::TieDowns<'a>>,
    /// What bends the tongue; left out where the file does not describe it.
    #[serde(skip_serializing_if = "Option::is_none")]
    tongue: Option<frame::Tongue>,
    /// What bends the rails; left out where the file does not describe them.
    #[serde(skip_serializing_if = "Option::is_none")]
    rails: Option<frame::Rails>,
}

#[derive(Serialize)]
struct Centre {
    x: Option<f64>,
    z: Option<f64>,
    y: Option<f64>,
}

#[derive(Serialize)]
struct Axle {
    load: Option<f64>,
    tire_load: Option<f64>,
}

/// The tires of an axle on level ground: what the heaviest carries and may carry at its pressure, that pressure, null where
/// the file does not state it, and the least that the load needs.
#[derive(Serialize)]
struct Tires {
    load: Option<f64>,
    allowed: Option<f64>,
    pressure: Option<f64>,
    needed_pressure: Option<f64>,
}

#[derive(Serialize)]
struct Lifted {
    tongue_weight: Option<f64>,
    axles: Vec<Axle>,
}

#[derive(Serialize)]
struct Tow {
    front_axle: Option<f64>,
    rear_axle: Option<f64>,
    gross_combination: Option<f64>,
}

#[derive(Serialize)]
struct Check<'a> {
    id: String,
    what: String,
    load: Option<f64>,
    limits: Limits,
    /// Null on a row that never fails.
    fails_beyond: Option<Limits>,
    margin: Option<f64>,
    margin_to_fail: Option<f64>,
    /// Only where inputs are uncertain.
    #[serde(skip_serializing_if = "Option::is_none")]
    corner: Option<AtCorner>,
    used: Option<f64>,
    range: Option<RangeOf>,
    uneven: Option<Uneven>,
    moved: Option<&'static str>,
    verdict: &'static str,
    counts: bool,
    case: Option<&'a str>,
    ramp: Option<&'a str>,
    basis: String,
    missing: Vec<String>,
    /// Only where samples were asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    fails_in: Option<FailsIn>,
}

/// Null where the check cannot be made, or not at every corner.
#[derive(Serialize)]
struct AtCorner {
    margin: Option<f64>,
    margin_to_fail: Option<f64>,
}

/// Where a row stands over the ranges of what is assumed, and the keys whose ranges move it.
#[derive(Serialize)]
struct RangeOf {
    low: f64,
    high: f64,
    margin_to_fail: Option<f64>,
    keys: Vec<String>,
}

/// The load with more than an even share of what equalized axles carry.
#[derive(Serialize)]
struct Uneven {
    load: f64,
    margin: f64,
}

#[derive(Serialize)]
struct Uncertain {
    /// The check that the shares are about.
    check: Option<String>,
    /// The check that would be it, where it fails with every doubt in its favour.
    beyond_doubt: Option<String>,
    inputs: Vec<UncertainInput>,
    contradictions: usize,
    unfit: Option<String>,
    samples: Option<Sampled>,
}

#[derive(Serialize)]
struct UncertainInput {
    key: String,
    bound: f64,
    /// Null for a plain fraction.
    unit: Option<&'static str>,
    share: Option<f64>,
}

#[derive(Serialize)]
struct Sampled {
    count: u64,
    seed: u64,
    fails_in: Option<FailsIn>,
    contradictions: u64,
    unfit: u64,
}

/// A share of samples with its standard error, or, where it is 0 or 1, how far off it may be.
#[derive(Serialize)]
struct FailsIn {
    samples: u64,
    share: f64,
    standard_error: Option<f64>,
    within: Option<f64>,
}

#[derive(Serialize)]
struct Limits {
    min: Option<f64>,
    max: Option<f64>,
}

/// A link of the chain, by the check that governs it.
#[derive(Serialize)]
struct Link {
    #[serde(rename = "link")]
    name: &'static str,
    check: Option<String>,
    load: Option<f64>,
    rating: Option<f64>,
    used: Option<f64>,
    verdict: &'static str,
    missing: Vec<String>,
}

fn link(link: &crate::fit::Link<'_>, units: UnitSystem) -> Link {
    let row = link.row;
    let number = |amount: Option<Amount>| amount.map(|amount| number(amount, units));
    Link {
        name: link.name,
        check: row.map(Row::id),
        load: number(row.and_then(|row| row.load)),
        rating: number(row.and_then(|row| row.max.or(row.min))),
        used: row.and_then(|row| row.used).map(Quantity::si),
        verdict: words::verdict(row.map_or(Verdict::NotChecked, |row| row.verdict)),
        missing: link.missing.iter().map(ToString::to_string).collect(),
    }
}

#[derive(Serialize)]
struct Informational {
    key: String,
    value: String,
}

#[derive(Serialize)]
struct Assumed<'a> {
    key: &'a str,
    value: String,
    why: &'static str,
}

fn header<'a>(path: &'a str, rig: &'a Rig, units: UnitSystem) -> Header<'a> {
    Header {
        schema: 1,
        tool: TOOL,
        rig: RigName { path, title: rig.proposed().title.as_deref() },
        units: Units::of(units),
    }
}

fn document<'a>(subject: &Subject<'a>, crossed: &[Crossed], heads: &[Heads]) -> Document<'a> {
    let Subject { path, rig, findings, uncertainty, as_stated, units } = *subject;
    let found = &findings.assessment;
    let cases = found.cases.iter().enumerate();
    Document {
        header: header(path, rig, units),
        verdict: words::rig_verdict(found.verdict),
        not_covered: found.not_covered.iter().map(|subject| subject.name()).collect(),
        as_stated,
        rules: rig.proposed().policy.rules.unwrap_or(Rules::Us).word(),
        reasons: found.reasons.iter().map(|reason| words::reason(reason, rig, units)).collect(),
        plan: None,
        cases: cases.map(|(i, loads)| case(subject, i, loads)).collect(),
        checks: found.rows.iter().enumerate().map(|(i, row)| check(subject, i, row)).collect(),
        chain: found.chain().iter().map(|link| self::link(link, units)).collect(),
        assumed: rig
            .assumed()
            .iter()
            .map(|assumed| Assumed {
                key: &assumed.key,
                value: words::assumed(assumed.value, units),
                why: assumed.why,
            })
            .collect(),
        informational: rig
            .informational(units)
            .into_iter()
            .map(|(key, value)| Informational { key: key.to_string(), value })
            .collect(),
        cautions: findings.cautions.iter().map(|caution| words::caution(caution, rig, units)).collect(),
        ramps: crossed.iter().map(|crossed| ramp(subject, crossed)).collect(),
        launches: launch::launches(subject),
        bunks: bunks::bunks(subject),
        uncertainty: uncertainty.map(|uncertainty| uncertain(subject, uncertainty)),
        scaled: findings.scaled.map(|scaling| Scaling {
            factor: scaling.factor,
            distance: units.length_number(scaling.forward),
        }),
        heads: heads.iter().map(|heads| head(subject, heads)).collect(),
        place: None,
    }
}

fn case<'a>(subject: &Subject<'a>, at: usize, loads: &CaseLoads) -> Case<'a> {
    let units = subject.units;
    let setup = &subject.rig.proposed();
    let axles = setup.trailer.axles.len();
    let body = loads.body.as_ref().ok();
    let stance = loads.level.as_ref().ok().map(|level| &level.stance);
    Case {
        name: words::case(subject.rig, at),
        gross_trailer_weight: weight(&loads.gross, units),
        boat_weight: weight(&loads.boat, units),
        cg: Centre {
            x: body.map(|body| units.length_number(body.at.x)),
            z: body.map(|body| units.length_number(body.at.z)),
            y: body.map(|body| units.length_number(body.at.y)),
        },
        pitch: stance.map(|stance| stance.pitch.si().to_degrees()),
        tongue_weight: weight(&loads.tongue, units),
        tongue_share: loads.tongue_share().ok().map(Quantity::si),
        axles: axle_loads(loads.level.as_ref().ok(), axles, units),
        tires: loads.tires.iter().map(|tires| on_tires(tires, units)).collect(),
        lifted_axle: loads.lifted.as_ref().map(|lifted| Lifted {
            tongue_weight: lifted
                .as_ref()
                .ok()
                .map(|lifted| units.weight_number(lifted.stance.tongue_weight)),
            axles: axle_loads(lifted.as_ref().ok(), axles - 1, units),
        }),
        tow: setup.tow.is_described().then(|| Tow {
            front_axle: loads.tow.as_ref().ok().map(|tow| units.weight_number(tow.front)),
            rear_axle: loads.tow.as_ref().ok().map(|tow| units.weight_number(tow.rear)),
            gross_combination: weight(&loads.combination, units),
        }),
        brakes: brakes::brakes(subject, &subject.findings.assessment, at),
        winch: winch::winch(subject, at),
        tie_downs: winch::tie_downs(subject, at),
        tongue: frame::tongue(subject, &subject.findings.assessment, at),
        rails: frame::rails(subject, &subject.findings.assessment, at),
    }
}

fn axle_loads(carried: Option<&Carried>, count: usize, units: UnitSystem) -> Vec<Axle> {
    let load = |i| carried.map(|carried| units.weight_number(carried.stance.axle_loads[i]));
    let tire_load = |i: usize| {
        let loads = carried?.tire_loads.as_ref().ok()?;
        Some(units.weight_number(loads[i]))
    };
    (0..count).map(|i| Axle { load: load(i), tire_load: tire_load(i) }).collect()
}

fn on_tires(tires: &OnTires, units: UnitSystem) -> Tires {
    let inflation = |known: &Known<Pressure>| {
        known.as_ref().ok().map(|pressure| show::number(pressure.si(), Kind::LinePressure, units).0)
    };
    Tires {
        load: weight(&tires.load, units),
        allowed: weight(&tires.allowed, units),
        pressure: inflation(&tires.pressure),
        needed_pressure: inflation(&tires.needed),
    }
}

fn weight(known: &Known<Weight>, units: UnitSystem) -> Option<f64> {
    known.as_ref().ok().map(|weight| units.weight_number(*weight))
}

fn uncertain(subject: &Subject<'_>, uncertainty: &Uncertainty) -> Uncertain {
    let id = |row: Option<usize>| row.map(|row| subject.findings.assessment.rows[row].id());
    let governing = uncertainty.governing;
    let corner = governing.and_then(|row| uncertainty.corners[row].as_ref());
    let shares = corner.and_then(|corner| corner.shares(&uncertainty.inputs));
    let input = |(i, (key, bound)): (usize, &(Key, f64))| {
        let kind = subject.rig.kind(*key)?;
        let (bound, unit) = show::number(*bound, kind, subject.units);
        let share = shares.as_ref().map(|shares| shares[i].si());
        Some(UncertainInput { key: key.to_string(), bound, unit, share })
    };
    Uncertain {
        check: id(governing),
        beyond_doubt: id(uncertainty.beyond_doubt),
        inputs: uncertainty.inputs.iter().enumerate().filter_map(input).collect(),
        contradictions: uncertainty.contradictions,
        unfit: uncertainty.unfit.as_ref().map(ToString::to_string),
        samples: uncertainty.samples.as_ref().map(|samples| Sampled {
            count: samples.count,
            seed: samples.seed,
            fails_in: fails_in(samples.rig),
            contradictions: samples.contradictions,
            unfit: samples.unfit,
        }),
    }
}

fn fails_in(rate: Rate) -> Option<FailsIn> {
    let share = rate.share()?;
    let (standard_error, within) = (rate.standard_error(), rate.within());
    Some(FailsIn { samples: rate.of, share, standard_error, within })
}

/// An amount in the report's units.
fn number(amount: Amount, units: UnitSystem) -> f64 {
    amount.number(units)
}

fn check<'a>(subject: &Subject<'a>, i: usize, row: &Row) -> Check<'a> {
    let units = subject.units;
    let samples = subject.uncertainty.and_then(|uncertainty| uncertainty.samples.as_ref());
    let number = |value: Option<Amount>| value.map(|value| number(value, units));
    let at_corner = |uncertainty: &Uncertainty| {
        let corner = uncertainty.corners.get(i).and_then(Option::as_ref);
        AtCorner {
            margin: number(corner.and_then(|corner| corner.margin)),
            margin_to_fail: number(corner.and_then(|corner| corner.margin_to_fail)),
        }
    };
    Check {
        id: row.id(),
        what: row.what(),
        load: number(row.load),
        limits: Limits { min: number(row.min), max: number(row.max) },
        fails_beyond: row
            .counts
            .then(|| Limits { min: number(row.fails_below), max: number(row.fails_above) }),
        margin: number(row.margin),
        margin_to_fail: number(row.margin_to_fail),
        corner: subject.uncertainty.map(at_corner),
        used: row.used.map(Quantity::si),
        range: row.range.as_ref().map(|range| RangeOf {
            low: self::number(range.low, units),
            high: self::number(range.high, units),
            margin_to_fail: number(range.margin_to_fail),
            keys: range.keys.iter().map(ToString::to_string).collect(),
        }),
        uneven: row.uneven.map(|uneven| Uneven {
            load: self::number(uneven.load, units),
            margin: self::number(uneven.margin, units),
        }),
        moved: row.moved.map(|moved| match moved {
            Moved::Counts => "counts",
            Moved::Advises => "advises",
        }),
        verdict: words::verdict(row.verdict),
        counts: row.counts,
        case: row.case.map(|case| words::case(subject.rig, case)),
        ramp: row.ramp.and_then(|ramp| subject.rig.proposed().ramps[ramp].name.as_deref()),
        basis: words::basis(row),
        missing: row.missing.iter().map(ToString::to_string).collect(),
        fails_in: samples.and_then(|samples| fails_in((*samples.rows.get(i)?)?)),
    }
}

#[derive(Serialize)]
struct Ramp<'a> {
    name: &'a str,
    case: &'a str,
    waters_edge: Option<f64>,
    stranded: Option<String>,
    missing: Vec<String>,
    peaks: Option<RampPeaks<'a>>,
    half_rates: Option<RampPeaks<'a>>,
    double_rates: Option<RampPeaks<'a>>,
    other_cases: Vec<OtherCase<'a>>,
}

/// A ramp crossed in another case than the one whose ratings stand worst.
#[derive(Serialize)]
struct OtherCase<'a> {
    case: &'a str,
    peaks: Option<RampPeaks<'a>>,
}

#[derive(Serialize)]
struct RampPeaks<'a> {
    axles: Vec<RampAxle>,
    tongue_weight: Extremes,
    pull: Place,
    drive_friction: Option<Grip>,
    steady_friction: Option<Grip>,
    parked_friction: Option<Grip>,
    clearances: Vec<Clearance<'a>>,
    bow_clearance: Option<Place>,
    bow_clearance_in_turn: Option<f64>,
}

#[derive(Serialize)]
struct RampAxle {
    greatest: Place,
    least: Place,
    tire_load: Option<Place>,
    hang: Place,
    hangs: Vec<Interval>,
}

#[derive(Serialize)]
struct Extremes {
    greatest: Place,
    least: Place,
}

#[derive(Serialize)]
struct Place {
    value: f64,
    position: f64,
}

#[derive(Serialize)]
struct Interval {
    from: f64,
    to: f64,
}

/// Friction is null where the gripping axle is unloaded and holds nothing.
#[derive(Serialize)]
struct Grip {
    value: Option<f64>,
    position: f64,
}

#[derive(Serialize)]
struct Clearance<'a> {
    name: &'a str,
    least: Option<Place>,
}

#[derive(Serialize)]
struct Head<'a> {
    ramp: &'a str,
    grades: Vec<HeadAt>,
    steepest: Option<f64>,
    /// The same at the worse and at the better end of what is assumed.
    steepest_range: [Option<f64>; 2],
    /// The steepest at which nothing fails, and at those ends.
    nothing_fails: Option<f64>,
    nothing_fails_range: [Option<f64>; 2],
    least_equalizer_travel: Option<f64>,
}

#[derive(Serialize)]
struct HeadAt {
    grade: f64,
    holds: bool,
    weakest: Option<String>,
    used: Option<f64>,
}

fn ramp<'a>(subject: &Subject<'a>, crossed: &Crossed) -> Ramp<'a> {
    let (rig, units) = (subject.rig, subject.units);
    let made = |loads: &RampLoads| match &loads.peaks {
        Ok(Ok(peaks)) => Some(ramp_peaks(subject, peaks)),
        _ => None,
    };
    let missing = crossed.loads.peaks.as_ref().err();
    Ramp {
        name: words::ramp(rig, crossed.loads.ramp),
        case: words::case(rig, crossed.loads.case),
        waters_edge: crossed.loads.waters_edge(rig.proposed()).map(|edge| units.length_number(edge)),
        stranded: match &crossed.loads.peaks {
            Ok(Err(stranded)) => Some(stranded.to_string()),
            _ => None,
        },
        missing: missing
            .map(|missing| missing.0.iter().map(ToString::to_string).collect())
            .unwrap_or_default(),
        peaks: made(&crossed.loads),
        half_rates: crossed.softer.as_ref().and_then(made),
        double_rates: crossed.stiffer.as_ref().and_then(made),
        other_cases: crossed
            .others
            .iter()
            .map(|other| OtherCase { case: words::case(rig, other.case), peaks: made(other) })
            .collect(),
    }
}

fn ramp_peaks<'a>(subject: &Subject<'a>, peaks: &Peaks) -> RampPeaks<'a> {
    let units = subject.units;
    let weight = |peak: Peak<Weight>| Place {
        value: units.weight_number(peak.value),
        position: units.length_number(peak.at),
    };
    let length = |peak: Peak<Length>| Place {
        value: units.length_number(peak.value),
        position: units.length_number(peak.at),
    };
    let grip = |friction: Friction| match friction {
        Friction::Needed(peak) => {
            Grip { value: Some(peak.value.si()), position: units.length_number(peak.at) }
        }
        Friction::HoldsNothing(at) => Grip { value: None, position: units.length_number(at) },
    };
    let points = peaks.points(subject.rig.proposed());
    RampPeaks {
        axles: peaks
            .axles
            .iter()
            .map(|axle| RampAxle {
                greatest: weight(axle.greatest),
                least: weight(axle.least),
                tire_load: axle.tire.clone().ok().map(weight),
                hang: length(axle.hang),
                hangs: axle
                    .hangs
                    .iter()
                    .map(|(from, to)| Interval {
                        from: units.length_number(*from),
                        to: units.length_number(*to),
                    })
                    .collect(),
            })
            .collect(),
        tongue_weight: Extremes {
            greatest: weight(peaks.tongue_greatest),
            least: weight(peaks.tongue_least),
        },
        pull: weight(peaks.pull),
        drive_friction: peaks.drive.clone().ok().map(grip),
        steady_friction: peaks.steady.clone().ok().map(grip),
        parked_friction: peaks.parked.clone().ok().map(grip),
        clearances: points
            .map(|(name, least)| Clearance { name, least: least.clone().ok().map(length) })
            .collect(),
        bow_clearance: peaks.bow.clone().ok().map(length),
        bow_clearance_in_turn: peaks.bow_in_turn.map(|gap| units.length_number(gap)),
    }
}

fn head<'a>(subject: &Subject<'a>, heads: &Heads) -> Head<'a> {
    let si = |grade: Option<Slope>| grade.map(Quantity::si);
    let at = |at: &crate::study::head::AtGrade| HeadAt {
        grade: at.grade.si(),
        holds: at.holds(),
        weakest: at.worst().map(Row::id),
        used: at.used().map(Quantity::si),
    };
    Head {
        ramp: words::ramp(subject.rig, heads.ramp),
        grades: heads.grades.iter().map(at).collect(),
        steepest: si(heads.ratings.as_assumed),
        steepest_range: [heads.ratings.worse, heads.ratings.better].map(si),
        nothing_fails: si(heads.nothing_fails.as_assumed),
        nothing_fails_range: [heads.nothing_fails.worse, heads.nothing_fails.better].map(si),
        least_equalizer_travel: heads.least_travel.map(|travel| subject.units.length_number(travel)),
    }
}
