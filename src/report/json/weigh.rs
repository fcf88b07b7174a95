//! What readings of scales say of a rig, in JSON.
//!
//! Each figure has its `value`, its `bound` (± 2 standard deviations, null where no reading decides it, and then the value
//! is no finding) and what the file gives `as_stated`. `others` is what all but the one reading, or the one input's ±,
//! gives, and how many standard deviations it is `off`; null where that decides nothing. With `most_off` or less none of
//! them is contradicted. What lies `outside` its boat or trailer is a length with the least and the greatest that it can be;
//! a rating in the file that gross or tongue weight is `past` has its key. `text` is what `--write` puts into a file. Shares are fractions.

use super::{Header, header};
use crate::quantity::show::{UnitSystem, number};
use crate::quantity::{Kind, Weight};
use crate::report::weigh::to_write;
use crate::report::words;
use crate::rig::Rig;
use crate::study::weigh::{Estimate, Others, Outside as OutsideOf, Part, Past as PastOf, State, Weighed};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Document<'a> {
    #[serde(flatten)]
    header: Header<'a>,
    weighed: Findings<'a>,
}

#[derive(Serialize)]
struct Findings<'a> {
    answer: bool,
    contradicted: bool,
    most_off: f64,
    outside: Vec<Outside>,
    past: Vec<Past>,
    boat: Boat,
    gross_trailer_weight: Option<Figure>,
    tongue_weight: Option<Figure>,
    axles: Option<Figure>,
    tongue_share: Option<Figure>,
    inputs: Vec<Input>,
    readings: Vec<Reading<'a>>,
    not_decided: Vec<Open<'a>>,
    next: Option<Next<'a>>,
}

#[derive(Serialize)]
struct Outside {
    what: &'static str,
    value: f64,
    bound: f64,
    least: f64,
    most: Option<f64>,
}

/// A rating that gross or tongue weight is past, and how far.
#[derive(Serialize)]
struct Past {
    key: String,
    rating: f64,
    by: f64,
}

#[derive(Serialize)]
struct Boat {
    weight: Option<Figure>,
    station: Option<Figure>,
    height: Option<Figure>,
}

#[derive(Serialize)]
struct Figure {
    value: f64,
    bound: Option<f64>,
    as_stated: Option<f64>,
}

#[derive(Serialize)]
struct Input {
    key: String,
    #[serde(flatten)]
    figure: Figure,
    stated_bound: Option<f64>,
    others: Option<Rest>,
    contradicted: bool,
    text: Option<String>,
}

#[derive(Serialize)]
struct Reading<'a> {
    #[serde(flatten)]
    state: InState<'a>,
    shown: f64,
    bound: f64,
    fitted: f64,
    others: Option<Rest>,
    contradicted: bool,
}

#[derive(Serialize)]
struct Rest {
    value: f64,
    bound: f64,
    off: f64,
}

/// A state of the rig on a scale; a null `ball_height` is the file's.
#[derive(Serialize)]
struct InState<'a> {
    what: &'static str,
    coupled: bool,
    case: &'a str,
    ball_height: Option<f64>,
    boat: f64,
}

#[derive(Serialize)]
struct Open<'a> {
    keys: Vec<String>,
    weigh: Option<InState<'a>>,
    /// The bound that it leaves of the first key.
    leaves: Option<f64>,
}

#[derive(Serialize)]
struct Next<'a> {
    #[serde(flatten)]
    state: InState<'a>,
    good_to: f64,
    leaves: f64,
}

pub(super) fn document<'a>(
    path: &'a str,
    rig: &'a Rig,
    weighed: &Weighed,
    units: UnitSystem,
) -> Document<'a> {
    let weight = |weight: Weight| units.weight_number(weight);
    let state = |state: &State| InState {
        what: state.what.word(),
        coupled: state.coupled,
        case: words::case(rig, state.case),
        ball_height: state.ball_height.map(|height| units.length_number(height)),
        boat: units.length_number(state.boat),
    };
    let figure = |estimate: Option<Estimate>, kind| estimate.map(|estimate| figure(estimate, kind, units));
    let inputs = weighed.found.iter().map(|found| Input {
        key: found.key.to_string(),
        figure: self::figure(found.estimate, found.kind, units),
        stated_bound: found.stated_bound.map(|bound| number(bound, found.kind, units).0),
        others: found.others.map(|others| rest(others, found.kind, units)),
        contradicted: found.is_contradicted,
        text: to_write(found, units).map(|(text, _)| text),
    });
    let readings = weighed.readings.iter().map(|reading| Reading {
        state: state(&reading.state),
        shown: weight(reading.shown),
        bound: weight(reading.bound),
        fitted: weight(reading.fitted),
        others: reading.others.map(|others| rest(others, Kind::Weight, units)),
        contradicted: reading.is_contradicted,
    });
    let open = weighed.open.iter().map(|open| {
        let kind = open.keys.first().and_then(|key| rig.kind(*key));
        Open {
            keys: words::keys(&open.keys),
            weigh: open.resolved_by.as_ref().map(state),
            leaves: open.leaves.zip(kind).map(|(bound, kind)| number(bound, kind, units).0),
        }
    });
    Document {
        header: header(path, rig, units),
        weighed: Findings {
            answer: weighed.answers(),
            contradicted: weighed.is_contradicted(),
            most_off: weighed.most_off(),
            outside: weighed.outside.iter().map(|outside| place(outside, units)).collect(),
            past: weighed.past.iter().map(|past| rating_past(past, units)).collect(),
            boat: Boat {
                weight: figure(weighed.boat.weight, Kind::Weight),
                station: figure(weighed.boat.station, Kind::Length),
                height: figure(weighed.boat.height, Kind::Length),
            },
            gross_trailer_weight: figure(weighed.gross, Kind::Weight),
            tongue_weight: figure(weighed.tongue, Kind::Weight),
            axles: figure(weighed.axles, Kind::Weight),
            tongue_share: figure(weighed.share, Kind::Share),
            inputs: inputs.collect(),
            readings: readings.collect(),
            not_decided: open.collect(),
            next: weighed.next.as_ref().map(|next| Next {
                state: state(&next.state),
                good_to: weight(next.good_to),
                leaves: next.leaves,
            }),
        },
    }
}

fn figure(estimate: Estimate, kind: Kind, units: UnitSystem) -> Figure {
    let shown = |si: f64| number(si, kind, units).0;
    Figure {
        value: shown(estimate.value),
        bound: estimate.bound.map(shown),
        as_stated: estimate.stated.map(shown),
    }
}

fn rating_past(past: &PastOf, units: UnitSystem) -> Past {
    let [rating, by] = [past.rating, past.by].map(|weight| units.weight_number(weight));
    Past { key: past.key.to_string(), rating, by }
}

fn place(outside: &OutsideOf, units: UnitSystem) -> Outside {
    let length = |si: f64| number(si, Kind::Length, units).0;
    let [least, most] = outside.within;
    Outside {
        what: match outside.what {
            Part::BoatStation => "boat-station",
            Part::BoatHeight => "boat-height",
            Part::TrailerStation => "trailer-station",
        },
        value: length(outside.value),
        bound: length(outside.bound),
        least: length(least),
        most: most.is_finite().then(|| length(most)),
    }
}

fn rest(others: Others, kind: Kind, units: UnitSystem) -> Rest {
    let shown = |si: f64| number(si, kind, units).0;
    Rest { value: shown(others.value), bound: shown(others.bound), off: others.off }
}
