//! A rig at every point of a grid of values: what its loads, margins and verdict become.
//!
//! The points are computed on all cores and handed on in their order, a block at a time, so that a sweep of any
//! size takes the same memory. Each point is the rig that naming its values in last changes to
//! [`Rig::read`] gives, to the last bit.
//!
//! ```
//! use bunkline::Rig;
//! use bunkline::fit::RigVerdict;
//! use bunkline::study::sweep::{Axis, Sweep};
//!
//! let rig = Rig::parse(&std::fs::read_to_string("demo-data/survey-launch-as-changed.toml")?)?;
//! let boat = Axis::parse(&rig, "shift.boat=-16in..2in/3in")?;
//! let sweep = Sweep::new(&rig, vec![boat], None, None, true)?;
//! // Of the seven places only the three farthest forward pass: the README shows the table.
//! let passes = |row: &u64| {
//!     let found = sweep.point(*row).found;
//!     found.is_ok_and(|found| found.verdict == RigVerdict::Pass)
//! };
//! assert_eq!((0..7).filter(passes).collect::<Vec<u64>>(), [0, 1, 2]);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

use super::NoRig;
use crate::fit::{
    Amount, AsMeasured, Asked, Bounds, CaseLoads, Event, Fold, LaunchLoads, Measure, RigVerdict, Scope,
    Unfit, Verdict, is_contradicted,
};
use crate::quantity::show::UnitSystem;
use crate::quantity::{Angle, Length, Quantity, Series, SeriesError, Share, Weight};
use crate::rig::{Fault, Key, Rig, Variable, Varied, nearest};
use rayon::ThreadPool;
use rayon::iter::{IntoParallelIterator, ParallelIterator};
use std::ops::ControlFlow;
use std::sync::{Mutex, PoisonError, mpsc};

/// What was found of one rig.
#[derive(Debug, Clone, PartialEq)]
pub struct Outlook {
    /// The loads of the cases asked for.
    pub cases: Vec<CaseLoads>,
    /// Launching in those cases, where a column shows it.
    pub launches: Vec<LaunchLoads>,
    /// How the rows asked for stand, in their order.
    pub folds: Vec<Fold>,
    /// The limits of those rows, where they are asked for.
    pub bounds: Vec<Bounds>,
    /// What they make of the rig: its verdict, where every row that fails it or is of the core is asked for.
    pub verdict: RigVerdict,
}

/// One variable and the values it goes through.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// What is varied.
    pub variable: Variable,
    /// Its values.
    pub series: Series,
}

/// What a sweep cannot begin with.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Unasked {
    /// A text that names no values of a path.
    #[error("expected PATH=FROM..TO/STEP or PATH=A,B,C, found `{0}`")]
    NotAnAxis(String),
    /// A path that leads to no quantity.
    #[error("{0}")]
    Path(Fault),
    /// Values that are none of the path's kind.
    #[error("{path}: {fault}")]
    Values {
        /// The path.
        path: String,
        /// What is wrong with them.
        fault: SeriesError,
    },
    /// A value that the path may never have.
    #[error("{path}: {fault}")]
    OutOfBounds {
        /// The path.
        path: String,
        /// Why it may not.
        fault: Fault,
    },
    /// One key under two paths, or under one twice.
    #[error("expected each key once, found `{0}` in two places")]
    Twice(String),
    /// One column twice.
    #[error("expected each column once, found `{0}` twice")]
    ColumnTwice(String),
    /// A column that is not known.
    #[error("expected the name of a column, found `{found}`")]
    Column {
        /// The name as written.
        found: String,
        /// The nearest name.
        near: Option<String>,
    },
}

impl Unasked {
    /// What the owner could write instead.
    pub fn help(&self) -> Option<String> {
        match self {
            Self::NotAnAxis(_) => Some("for example --vary shift.boat=-4in..6in/1in".to_string()),
            Self::Path(fault) | Self::OutOfBounds { fault, .. } => fault.help(),
            Self::Values { fault, .. } => fault.help(),
            Self::Twice(_) | Self::ColumnTwice(_) => None,
            Self::Column { near, .. } => Some(match near {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!(
                    "columns are {}, and the id of any check with .load, .margin, .used or .verdict",
                    PLAIN.map(|(name, _)| name).join(", ")
                ),
            }),
        }
    }
}

impl Axis {
    /// The axis that a text `PATH=VALUES` states of a rig.
    ///
    /// # Errors
    /// [`Unasked`] when the path leads to no quantity, or the values are none that it may have.
    pub fn parse(rig: &Rig, text: &str) -> Result<Self, Unasked> {
        let Some((path, values)) = text.split_once('=') else {
            return Err(Unasked::NotAnAxis(text.escape_debug().to_string()));
        };
        let variable = rig.variable(path.trim()).map_err(Unasked::Path)?;
        let path = || variable.path.clone();
        let series = Series::parse(values.trim(), variable.kind)
            .map_err(|fault| Unasked::Values { path: path(), fault })?;
        // Between two values within their bounds all are: of a range the ends are enough.
        let looked_at =
            if series.is_range() { [0, series.len() - 1].to_vec() } else { (0..series.len()).collect() };
        let units = rig.proposed().units.map_or(UnitSystem::Us, UnitSystem::from);
        for i in looked_at {
            if let Some(fault) = variable.out_of_bounds(series.si(i), units) {
                return Err(Unasked::OutOfBounds { path: path(), fault });
            }
        }
        Ok(Self { variable, series })
    }
}

/// What a column shows of a point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shows {
    /// Tongue weight, in the case whose tongue share has the least margin.
    TongueWeight,
    /// Tongue weight as a share of gross, in that case.
    TongueShare,
    /// The greatest gross trailer weight of all cases.
    GrossTrailerWeight,
    /// The greatest load of all axles.
    AxleLoad,
    /// The greatest load of all axles with the rear one lifted.
    LiftedAxleLoad,
    /// Pitch in the case in which the frame is farthest from level.
    Pitch,
    /// The least margin in weight of the checks that count and compare weights.
    LeastMargin,
    /// The check of that margin.
    LeastMarginCheck,
    /// How deep the trailer's rear wheels stand where something happens while launching: the greatest of all ramps and
    /// cases.
    LaunchDepth(Event),
    /// The rig's verdict.
    Verdict,
    /// The failing check that uses most of its limit.
    FailingCheck,
    /// A check's governing load.
    Load(Measure),
    /// A check's margin.
    Margin(Measure),
    /// How much of a check's rating or band is used.
    Used,
    /// What became of a check.
    CheckVerdict,
}

/// One result column.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Its name, without a unit.
    pub name: String,
    /// What it shows.
    pub shows: Shows,
    /// Its row's place among those asked for, where it has one.
    at: usize,
}

/// The columns that are about no check in particular, by name.
const PLAIN: [(&str, Shows); 13] = [
    ("tongue_weight", Shows::TongueWeight),
    ("tongue_share", Shows::TongueShare),
    ("axle_load", Shows::AxleLoad),
    ("lifted_axle_load", Shows::LiftedAxleLoad),
    ("gross_trailer_weight", Shows::GrossTrailerWeight),
    ("pitch", Shows::Pitch),
    ("least_margin", Shows::LeastMargin),
    ("least_margin_check", Shows::LeastMarginCheck),
    ("verdict", Shows::Verdict),
    ("failing_check", Shows::FailingCheck),
    ("launch-lift", Shows::LaunchDepth(Event::SternLifts)),
    ("launch-slide", Shows::LaunchDepth(Event::Slides)),
    ("launch-free", Shows::LaunchDepth(Event::Floats)),
];

/// Ids longer than this leave less room on a page.
const LONG_ID: usize = 20;

/// The checks of axles' loads, and of those with the rear axle lifted.
const AXLE: &str = "axle-*";
const LIFTED_AXLE: &str = "lifted-axle-*";

/// A check that launching is needed for.
const LAUNCH: &str = "launch-ramp-end";
/// The check whose governing case is that of tongue weight and share.
const TONGUE_SHARE: &str = "tongue-share";

/// A value in a column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cell<'a> {
    /// An amount.
    Amount(Amount),
    /// An angle.
    Angle(Angle),
    /// The id of a check.
    Check(&'a str),
    /// What became of a check.
    CheckVerdict(Verdict),
    /// What became of the rig.
    RigVerdict(RigVerdict),
    /// Nothing: it is not known.
    Unknown,
}

/// One point of a sweep.
#[derive(Debug)]
pub struct Point {
    /// Which, counted from 0, the first axis slowest.
    pub row: u64,
    /// What was found there.
    pub found: Result<Outlook, NoRig>,
}

/// One key with the value that it is to have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Setting {
    /// The key's path.
    pub path: String,
    /// The value, as a rig file states it.
    pub text: String,
    /// The key.
    pub key: Key,
}

/// A grid of values over a rig, and what is asked of each of its points.
#[derive(Debug)]
pub struct Sweep<'a> {
    rig: &'a Rig,
    axes: Vec<Axis>,
    /// What each axis varies, as the rig stands, in SI.
    from: Vec<f64>,
    columns: Vec<Column>,
    scope: Scope,
    /// What follows from the measured state, where no axis changes that.
    measured: Option<AsMeasured>,
    /// Whether the limits of each point are asked for.
    with_bounds: bool,
}

impl<'a> Sweep<'a> {
    /// A sweep of a rig, over every case or one alone, counted from 0.
    ///
    /// `shown` names the columns; none names the usual ones. For the best point the verdict is needed beside them.
    ///
    /// # Errors
    /// [`Unasked`] when one key is varied or one column shown twice, or a column is not known.
    pub fn new(
        rig: &'a Rig,
        axes: Vec<Axis>,
        case: Option<usize>,
        shown: Option<&[String]>,
        for_best: bool,
    ) -> Result<Self, Unasked> {
        Self::over(true, rig, axes, case, shown, for_best)
    }

    /// The same with the ramps left out: no row over them is known, and the verdict rests on the others.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn without_ramps(
        rig: &'a Rig,
        axes: Vec<Axis>,
        case: Option<usize>,
        shown: Option<&[String]>,
        for_best: bool,
    ) -> Result<Self, Unasked> {
        Self::over(false, rig, axes, case, shown, for_best)
    }

    fn over(
        ramps: bool,
        rig: &'a Rig,
        axes: Vec<Axis>,
        case: Option<usize>,
        shown: Option<&[String]>,
        for_best: bool,
    ) -> Result<Self, Unasked> {
        for (i, axis) in axes.iter().enumerate() {
            let earlier = || axes[..i].iter().flat_map(|earlier| earlier.variable.keys());
            if let Some(key) = axis.variable.keys().find(|key| earlier().any(|other| other == *key)) {
                return Err(Unasked::Twice(key.to_string()));
            }
        }
        // What is varied is stated, and may make a row fail that only advises past an assumed value.
        let mut varied = Varied::new(rig);
        let first: Vec<(&Variable, f64)> =
            axes.iter().map(|axis| (&axis.variable, axis.series.si(0))).collect();
        let setup = varied.with(&first).map_or(rig.proposed(), Rig::proposed);
        let every = Scope::of(setup, |asked| ramps || !asked.check.crosses_ramps(setup));
        let all = every.rows();
        let mut columns = match shown {
            Some(names) => names.iter().map(|name| column(name, all)).collect::<Result<Vec<_>, _>>()?,
            None => usual(all),
        };
        for (i, column) in columns.iter().enumerate() {
            if columns[..i].iter().any(|earlier| earlier.name == column.name) {
                return Err(Unasked::ColumnTwice(column.name.clone()));
            }
        }
        let best = plain("verdict").filter(|_| for_best);
        let needing: Vec<Column> = columns.iter().cloned().chain(best).collect();
        let wanted = |asked: &Asked| all.contains(asked) && needing.iter().any(|column| column.needs(asked));
        let scope = Scope::of(setup, wanted).in_case(case);
        for column in &mut columns {
            let check = column.check();
            column.at = scope.rows().iter().position(|asked| Some(asked.id.as_str()) == check).unwrap_or(0);
        }
        let corrects = axes.iter().any(|axis| axis.variable.corrects());
        let measured = (!corrects).then(|| AsMeasured::of(rig));
        let from = axes.iter().map(|axis| rig.value(&axis.variable).unwrap_or(0.0)).collect();
        Ok(Self { rig, axes, from, columns, scope, measured, with_bounds: false })
    }

    /// The same with the limits of every point, as a chart shows them.
    #[must_use]
    pub fn with_bounds(self) -> Self {
        Self { with_bounds: true, ..self }
    }

    /// The value that an axis varies as the rig stands, in SI, if it has one.
    pub fn stands(&self, axis: &Axis) -> Option<f64> {
        self.rig.value(&axis.variable)
    }

    /// The limits that what a column shows of a point faces, each with the row's id; empty where it has none, or where they
    /// were not asked for.
    pub fn bounds(&self, column: &Column, found: &Outlook) -> Vec<(&str, Bounds)> {
        let of_check = |check: &str| {
            let rows = self.scope.rows().iter().zip(&found.bounds);
            let of_check = rows.filter(|(asked, _)| asked.check.id == check);
            of_check.map(|(asked, bounds)| (asked.id.as_str(), *bounds)).collect()
        };
        match column.shows {
            Shows::AxleLoad => of_check(AXLE),
            Shows::LiftedAxleLoad => of_check(LIFTED_AXLE),
            Shows::TongueShare | Shows::Load(_) => {
                let row = self.scope.rows().get(column.at).zip(found.bounds.get(column.at));
                row.map(|(asked, bounds)| (asked.id.as_str(), *bounds)).into_iter().collect()
            }
            _ => Vec::new(),
        }
    }

    /// The values of a point as a file would state them, key by key.
    pub fn settings(&self, row: u64) -> Vec<Setting> {
        let axes = self.axes.iter().zip(self.places(row));
        let settings = axes.flat_map(|(axis, place)| {
            let paths = self.rig.paths(&axis.variable).into_iter().zip(axis.variable.keys());
            paths.map(move |(path, key)| Setting { path, text: axis.series.text(place), key })
        });
        settings.collect()
    }

    /// The rig as it stands.
    pub fn rig(&self) -> &'a Rig {
        self.rig
    }

    /// One point.
    pub fn point(&self, row: u64) -> Point {
        Worker::new(self).point(row)
    }

    /// What is varied.
    pub fn axes(&self) -> &[Axis] {
        &self.axes
    }

    /// The result columns.
    pub fn columns(&self) -> &[Column] {
        &self.columns
    }

    /// The rows that are evaluated at each point.
    pub fn scope(&self) -> &Scope {
        &self.scope
    }

    /// How many points there are.
    pub fn rows(&self) -> u128 {
        self.axes.iter().map(|axis| u128::from(axis.series.len())).fold(1, u128::saturating_mul)
    }

    /// Which value of each axis a point has, the last axis varying fastest.
    pub fn places(&self, row: u64) -> impl DoubleEndedIterator<Item = u64> + use<'_> {
        let mut rest = row;
        let mut places = vec![0; self.axes.len()];
        for (place, axis) in places.iter_mut().zip(&self.axes).rev() {
            *place = rest % axis.series.len();
            rest /= axis.series.len();
        }
        places.into_iter()
    }

    /// What a column shows of a point.
    pub fn cell<'s>(&'s self, column: &Column, found: &Outlook) -> Cell<'s> {
        let fold = found.folds.get(column.at);
        let governing = fold.and_then(Fold::governing);
        // Where nothing holds there is no load to show, and no margin.
        let standing = governing.map(|worst| worst.standing).filter(|standing| standing.value.is_some());
        let amount = |si: Option<f64>| si.map(|si| self.scope.rows()[column.at].amount(si));
        let amount = match column.shows {
            Shows::TongueShare | Shows::Load(_) => amount(standing.and_then(|standing| standing.value)),
            Shows::Margin(_) => amount(standing.map(|standing| standing.margin)),
            Shows::Used => {
                let used = standing.and_then(|standing| standing.used);
                used.map(|used| Amount::Share(Share::from_si(used)))
            }
            Shows::TongueWeight => {
                let case = governing.and_then(|worst| worst.case).and_then(|case| found.cases.get(case));
                case.and_then(|case| case.tongue.clone().ok()).map(Amount::Weight)
            }
            Shows::GrossTrailerWeight => {
                let gross: Option<Vec<Weight>> =
                    found.cases.iter().map(|case| case.gross.clone().ok()).collect();
                gross.and_then(|gross| gross.into_iter().reduce(Weight::max)).map(Amount::Weight)
            }
            Shows::LeastMargin => self.least_margin(found).map(|(_, si)| Amount::Weight(Weight::from_si(si))),
            Shows::LeastMarginCheck => {
                let least = self.least_margin(found);
                return least.map_or(Cell::Unknown, |(asked, _)| Cell::Check(&asked.id));
            }
            Shows::LaunchDepth(event) => launch_depth(event, found).map(Amount::Length),
            Shows::AxleLoad => self.greatest_load(AXLE, found),
            Shows::LiftedAxleLoad => self.greatest_load(LIFTED_AXLE, found),
            Shows::FailingCheck => {
                return self.failing_check(found).map_or(Cell::Unknown, Cell::Check);
            }
            Shows::Pitch => return farthest_pitch(found).map_or(Cell::Unknown, Cell::Angle),
            Shows::Verdict => return Cell::RigVerdict(found.verdict),
            Shows::CheckVerdict => {
                return fold.map_or(Cell::Unknown, |fold| Cell::CheckVerdict(fold.verdict()));
            }
        };
        amount.map_or(Cell::Unknown, Cell::Amount)
    }

    /// The greatest load of the rows of one check, if there are any and all are known.
    fn greatest_load(&self, check: &str, found: &Outlook) -> Option<Amount> {
        let of_check = self.stood(found).filter(|(asked, _)| asked.check.id == check);
        let loads: Option<Vec<f64>> = of_check.map(|(_, fold)| fold.governing()?.standing.value).collect();
        let greatest = loads?.into_iter().reduce(f64::max)?;
        Some(Amount::Weight(Weight::from_si(greatest)))
    }

    /// The id of the failing check that uses most of its limit, the first of equals.
    pub fn failing_check<'s>(&'s self, found: &Outlook) -> Option<&'s str> {
        // Sizes and floors that do not hold, and loads below zero, are outside by no share of a rating.
        let used = |fold: &Fold| fold.used_to_fail().filter(|used| *used >= 0.0).unwrap_or(f64::INFINITY);
        let failing = self.stood(found).filter(|(_, fold)| fold.verdict() == Verdict::Fail);
        let (asked, _) = failing.reduce(|a, b| if used(b.1) > used(a.1) { b } else { a })?;
        Some(&asked.id)
    }

    /// The rows with how they stand.
    fn stood<'s, 'f>(
        &'s self,
        found: &'f Outlook,
    ) -> impl Iterator<Item = (&'s Asked, &'f Fold)> + Clone + use<'s, 'f, 'a> {
        self.scope.rows().iter().zip(&found.folds)
    }

    /// The least margin in weight of the rows that can fail and compare weights, and which row it belongs to; the
    /// first of equals.
    pub fn least_margin<'s>(&'s self, found: &Outlook) -> Option<(&'s Asked, f64)> {
        let margins =
            self.stood(found).filter(|(asked, _)| asked.has_weight_margin()).filter_map(|(asked, fold)| {
                Some((asked, fold.margin_to_fail().filter(|margin| margin.is_finite())?))
            });
        margins.reduce(|least, next| if next.1 < least.1 { next } else { least })
    }

    /// What is found of a rig.
    fn outlook(&self, rig: &Rig) -> Result<Outlook, Unfit> {
        let facts = self.scope.facts(rig, self.measured.as_ref())?;
        let folds = self.scope.folds(rig.proposed(), &facts);
        let verdict = match self.scope.verdict(rig.proposed(), &facts, &folds) {
            RigVerdict::Pass if is_contradicted(rig, &self.scope, &folds) => RigVerdict::Unsure,
            verdict => verdict,
        };
        let bounds =
            if self.with_bounds { self.scope.bounds(rig.proposed(), &facts, &folds) } else { Vec::new() };
        Ok(Outlook { cases: facts.cases, launches: facts.launches, folds, bounds, verdict })
    }

    /// Evaluates all points in parallel and hands on the results in their order.
    ///
    /// `make` adds a point to the result of its chunk; `take` takes the chunks in order, with how many points
    /// they are of, and may end the sweep. What is made depends on neither the number of threads nor their luck.
    pub fn run<C: Default + Send>(
        &self,
        pool: &ThreadPool,
        make: impl Fn(&mut C, &Point) + Sync,
        mut take: impl FnMut(C, u64) -> ControlFlow<()>,
    ) {
        let rows = u64::try_from(self.rows()).unwrap_or(u64::MAX);
        let chunk = if self.scope.crosses_ramps() { 1 } else { POINTS_TOGETHER };
        let block = chunk * (CHUNKS_A_THREAD * pool.current_num_threads() as u64);
        let workers = Mutex::new(Vec::new());
        let one_chunk = |from: u64, end: u64| {
            // A poisoned lock has lost no worker that anybody misses.
            let idle = workers.lock().unwrap_or_else(PoisonError::into_inner).pop();
            let mut worker = idle.unwrap_or_else(|| Worker::new(self));
            let mut made = C::default();
            for row in from..end {
                make(&mut made, &worker.point(row));
            }
            workers.lock().unwrap_or_else(PoisonError::into_inner).push(worker);
            (made, end - from)
        };
        let blocks = &|| (0..rows).step_by(usize::try_from(block).unwrap_or(usize::MAX));
        let one_block = &|from: u64| -> Vec<(C, u64)> {
            let end = rows.min(from.saturating_add(block));
            let chunks = (0..(end - from).div_ceil(chunk)).into_par_iter().map(|i| {
                let from = from + i * chunk;
                one_chunk(from, end.min(from + chunk))
            });
            pool.install(|| chunks.collect())
        };
        let hand_on = |block: Vec<(C, u64)>| block.into_iter().try_for_each(|(made, n)| take(made, n));
        std::thread::scope(|scope| {
            // One block is taken while the next is computed, where there is a thread for it.
            let (made, to_take) = mpsc::sync_channel(1);
            let ahead = || {
                let send = move |from| made.send(one_block(from)).is_ok();
                let all = move || blocks().all(send);
                std::thread::Builder::new().spawn_scoped(scope, all).is_ok()
            };
            let _ = if pool.current_num_threads() > 1 && ahead() {
                to_take.into_iter().try_for_each(hand_on)
            } else {
                blocks().map(one_block).try_for_each(hand_on)
            };
        });
    }

    /// How far a point is from the rig as it stands: the sum of its moves, each as a share of its axis.
    fn distance(&self, row: u64) -> f64 {
        let moves = self.axes.iter().zip(&self.from).zip(self.places(row)).map(|((axis, from), place)| {
            let series = &axis.series;
            let span = (series.si(series.len() - 1) - series.si(0)).abs();
            if span > 0.0 { (series.si(place) - from).abs() / span } else { 0.0 }
        });
        moves.sum()
    }
}

/// So many points are computed one after the other, so that handing them on costs next to nothing.
const POINTS_TOGETHER: u64 = 512;
/// So many chunks a thread are computed before they are handed on: the threads are seldom idle at the end.
const CHUNKS_A_THREAD: u64 = 16;

/// The rig in the hands of one thread.
struct Worker<'s> {
    sweep: &'s Sweep<'s>,
    varied: Varied,
    values: Vec<(&'s Variable, f64)>,
}

impl<'s> Worker<'s> {
    fn new(sweep: &'s Sweep<'_>) -> Self {
        let values = sweep.axes.iter().map(|axis| (&axis.variable, 0.0)).collect();
        Self { sweep, varied: Varied::new(sweep.rig), values }
    }

    fn point(&mut self, row: u64) -> Point {
        // As Sweep::places, at every point of a million.
        let mut rest = row;
        for (value, axis) in self.values.iter_mut().zip(&self.sweep.axes).rev() {
            value.1 = axis.series.si(rest % axis.series.len());
            rest /= axis.series.len();
        }
        let found = match self.varied.with(&self.values) {
            Ok(rig) => self.sweep.outlook(rig).map_err(NoRig::Unfit),
            Err(problems) => Err(problems.into()),
        };
        Point { row, found }
    }
}

impl Column {
    /// The id of the check that it is about, if it is about one.
    fn check(&self) -> Option<&str> {
        match self.shows {
            Shows::TongueWeight | Shows::TongueShare => Some(TONGUE_SHARE),
            Shows::Load(_) | Shows::Margin(_) | Shows::Used | Shows::CheckVerdict => {
                self.name.rsplit_once('.').map(|(id, _)| id)
            }
            _ => None,
        }
    }

    /// Whether it needs a check.
    fn needs(&self, asked: &Asked) -> bool {
        match self.shows {
            Shows::Verdict => asked.decides(),
            Shows::FailingCheck => asked.fails(),
            Shows::LeastMargin | Shows::LeastMarginCheck => asked.has_weight_margin(),
            Shows::AxleLoad => asked.check.id == AXLE,
            Shows::LiftedAxleLoad => asked.check.id == LIFTED_AXLE,
            Shows::LaunchDepth(_) => asked.check.id == LAUNCH,
            _ => self.check() == Some(asked.id.as_str()),
        }
    }
}

/// The greatest depth at the trailer's rear wheels at which something happens; `None` where it does not on some ramp in
/// some case.
fn launch_depth(event: Event, found: &Outlook) -> Option<Length> {
    let depths = found.launches.iter().map(|loads| Some(loads.found().ok()?.at(event)?.wheel_depth));
    let depths: Option<Vec<Length>> = depths.collect();
    depths?.into_iter().reduce(Length::max)
}

fn plain(name: &str) -> Option<Column> {
    let (name, shows) = PLAIN.into_iter().find(|(plain, _)| *plain == name)?;
    Some(Column { name: name.to_string(), shows, at: 0 })
}

/// The column of a name.
fn column(name: &str, all: &[Asked]) -> Result<Column, Unasked> {
    let of_check = || {
        let (id, field) = name.rsplit_once('.')?;
        let asked = all.iter().find(|asked| asked.id == id)?;
        let shows = match field {
            "load" => Shows::Load(asked.check.measure),
            "margin" => Shows::Margin(asked.check.measure),
            "used" => Shows::Used,
            "verdict" => Shows::CheckVerdict,
            _ => return None,
        };
        Some(Column { name: name.to_string(), shows, at: 0 })
    };
    plain(name).or_else(of_check).ok_or_else(|| {
        let fields = ["load", "margin", "used", "verdict"];
        let of_checks = all.iter().flat_map(|asked| fields.map(|field| format!("{}.{field}", asked.id)));
        let known: Vec<String> = PLAIN.iter().map(|(name, _)| (*name).to_string()).chain(of_checks).collect();
        // A check's bare id most likely means its load.
        let bare = all.iter().find(|asked| asked.id == name).map(|asked| format!("{}.load", asked.id));
        let near = || nearest(name, known.iter().map(String::as_str)).map(str::to_string);
        Unasked::Column { found: name.escape_debug().to_string(), near: bare.or_else(near) }
    })
}

/// The names of the columns that a page has room for, where none are named: of the axles' loads the greatest, with
/// the rear axle lifted where that must hold.
pub fn columns_for_a_page(rig: &Rig) -> Vec<String> {
    let lifted = Scope::of(rig.proposed(), |asked| asked.check.id == LIFTED_AXLE && asked.fails());
    let lifted_counts = !lifted.rows().is_empty();
    let load = if lifted_counts { "lifted_axle_load" } else { "axle_load" };
    // Beside a long id there is no room for the check of the least margin.
    let is_long = |asked: &Asked| asked.fails() && asked.id.len() > LONG_ID;
    let margins: &[&str] = if Scope::of(rig.proposed(), is_long).rows().is_empty() {
        &["least_margin", "least_margin_check"]
    } else {
        &["least_margin"]
    };
    let columns = [&["tongue_weight", "tongue_share", load], margins, &["verdict", "failing_check"]].concat();
    columns.into_iter().map(str::to_string).collect()
}

/// The columns shown where none are named.
fn usual(all: &[Asked]) -> Vec<Column> {
    let loads = all.iter().filter(|asked| matches!(asked.check.id, AXLE | LIFTED_AXLE));
    let loads = loads.map(|asked| Column {
        name: format!("{}.load", asked.id),
        shows: Shows::Load(asked.check.measure),
        at: 0,
    });
    let before = ["tongue_weight", "tongue_share"];
    let after = ["least_margin", "least_margin_check", "verdict", "failing_check"];
    before.into_iter().filter_map(plain).chain(loads).chain(after.into_iter().filter_map(plain)).collect()
}

fn farthest_pitch(found: &Outlook) -> Option<Angle> {
    let pitches = found.cases.iter().map(|case| case.level.as_ref().ok().map(|level| level.stance.pitch));
    let pitches: Option<Vec<Angle>> = pitches.collect();
    let farther = |a: Angle, b: Angle| if b.abs() > a.abs() { b } else { a };
    pitches.and_then(|pitches| pitches.into_iter().reduce(farther))
}

/// The best point of those seen: it passes, and of those that do it has the fewest advising checks and then most to
/// spare.
///
/// Two points with as many advising checks are compared by how much is used of the limit past which the rig fails that
/// is used most: the lesser is better. Where that is
/// the same, as of a check that what is varied does not change, the check decides of which second most is used, and
/// so on; of equals the point nearest to the rig as it stands is best. Only checks that count and have a rating or a
/// band take part.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Best {
    /// How many points were seen.
    pub points: u64,
    /// How many of them pass.
    pub passing: u64,
    candidate: Option<Candidate>,
}

#[derive(Debug, Clone, PartialEq)]
struct Candidate {
    row: u64,
    /// How many checks advise.
    advising: usize,
    /// How much of each failing limit is used, the most first, in steps of [`ALIKE`].
    used: Vec<i64>,
    distance: f64,
}

/// Shares of ratings within this are the same: settling leaves less, and no scale reads closer.
const ALIKE: f64 = 1e-7;

impl Best {
    /// The best point's row, if any point passes.
    pub fn row(&self) -> Option<u64> {
        self.candidate.as_ref().map(|best| best.row)
    }

    /// Looks at one more point.
    pub fn see(&mut self, sweep: &Sweep<'_>, point: &Point) {
        self.points += 1;
        let Ok(found) = &point.found else { return };
        if found.verdict != RigVerdict::Pass {
            return;
        }
        self.passing += 1;
        let advising = sweep.stood(found).filter(|(_, fold)| fold.verdict() == Verdict::Advise).count();
        let counting = sweep.stood(found).filter(|(asked, _)| asked.fails());
        let used = counting.filter_map(|(_, fold)| fold.used_to_fail());
        let used = used.map(|used| (used / ALIKE).round() as i64);
        // Most points are worse already.
        let most = self.candidate.as_ref().map(|best| (best.advising, best.used.first().copied()));
        if most.is_some_and(|most| (advising, used.clone().max()) > most) {
            return;
        }
        let mut used: Vec<i64> = used.collect();
        used.sort_unstable_by(|a, b| b.cmp(a));
        self.challenge(Candidate { row: point.row, advising, used, distance: sweep.distance(point.row) });
    }

    /// Adds what was seen later.
    pub fn and(&mut self, later: Self) {
        self.points += later.points;
        self.passing += later.passing;
        if let Some(candidate) = later.candidate {
            self.challenge(candidate);
        }
    }

    fn challenge(&mut self, next: Candidate) {
        let better = |best: &Candidate| {
            let fewer = next.advising.cmp(&best.advising);
            fewer
                .then_with(|| next.used.cmp(&best.used))
                .then(next.distance.total_cmp(&best.distance))
                .is_lt()
        };
        if self.candidate.as_ref().is_none_or(better) {
            self.candidate = Some(next);
        }
    }
}
