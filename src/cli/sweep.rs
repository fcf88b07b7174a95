//! `bunkline sweep`: a rig at every point of a grid of values.

use super::destination::{Destination, Place, unwritable};
use super::file::Draft;
use super::format::{Format, one_of};
use super::interrupt::{self, interrupted};
use super::rigs::{self, Asked, RigFile, Trouble, named, shown};
use super::stream::Streams;
use super::{Outcome, threads};
use crate::report::html;
use crate::report::sweep::chart::{self, NoPicture, Spot};
use crate::report::sweep::{Form, Rows, best, none_passes};
use crate::rig::{Key, Rig};
use crate::study::sweep::{Axis, Best, Point, Sweep as Grid, Unasked, columns_for_a_page};
use clap::Args;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use rayon::ThreadPool;
use std::io::IsTerminal;
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// Show how loads and verdict change over a range of values: one row a point
///
/// There is one row for each value, or for each combination of several --vary, the first varying slowest. Each point is
/// what check --as-stated --set PATH=VALUE finds, to the last digit: every value is taken as stated, whatever its bound.
/// A row shows the governing value over all cases: tongue weight and share of the case whose share is nearest to or
/// farthest outside its limits, the greatest gross_trailer_weight, the pitch of the case farthest from level, and a
/// check's load, margin and used of its own governing case. least_margin is the least margin, in weight, of the checks
/// that count and compare weights. failing_check is the failing check that uses most of its limit; it is empty where
/// none fails. axle_load and lifted_axle_load are the greatest of all axles. Where a value breaks a rule of the file, or
/// the trailer does not rest on its wheels, the results are empty and the verdict is none.
#[derive(Args)]
#[command(after_help = "\
Columns for --show: tongue_weight, tongue_share, axle_load, lifted_axle_load,
gross_trailer_weight, pitch, least_margin, least_margin_check, verdict,
failing_check, and the id of any check with .load, .margin, .used or .verdict.
Without --show, csv and json have the load of every axle, and the table has the
greatest; with the rear axle lifted where that must hold. Ramps are crossed only
where a column or the policy asks for them.

--format svg draws one variable as lines of the columns shown, each with its
limits, and two as a field of verdicts, the last --vary across; html is a page
with that picture and the table. One variable may have 1000 values, each of two
60. --best is not drawn.

--best compares passing points by the check that uses most of its limit; where
that is equal, by the next one, and so on. So a check that the values do not
change does not decide. Checks that count and have a rating or a band take part.

Exits 0 when done, 1 when --best finds no point that passes, and 2 when the job
could not be done or was interrupted.

Examples:
  bunkline sweep rig.toml --vary shift.boat=-12in..2in/1in
  bunkline sweep rig.toml --vary shift.boat=-12in..2in/1in --best
  bunkline sweep rig.toml --vary shift.boat=-6in..2in/1in \\
    --vary cases.1.fill.fuel=0%,50%,100% --format csv \\
    --show tongue_share,lifted-axle-1.load,ramp-axle-1.used,verdict
  bunkline sweep rig.toml --vary shift.boat=-12in..2in/1in \\
    --format svg > sweep.svg")]
pub(super) struct Sweep {
    /// Rig file; - is standard input
    #[arg(value_name = "FILE")]
    file: String,
    /// What to vary, and through which values: PATH=FROM..TO/STEP, in which numbers without a unit take the step's,
    /// or PATH=A,B,C; may be repeated
    #[arg(long, required = true, value_name = "PATH=VALUES")]
    vary: Vec<String>,
    /// Result columns, in this order, instead of the usual ones
    #[arg(long, value_name = "COLUMNS", value_delimiter = ',')]
    show: Option<Vec<String>>,
    /// Only the case of this name, instead of the governing one of all
    #[arg(long, value_name = "NAME")]
    case: Option<String>,
    /// How to report; text is a table, json one object a line; svg and html are a picture of one variable or two
    #[arg(long, value_name = "FORM", default_value = "text", value_parser = one_of(&[Format::Text, Format::Json, Format::Csv, Format::Html, Format::Svg]))]
    format: Format,
    /// Write to a file instead, which appears when it is complete; an earlier table is replaced
    #[arg(long, value_name = "PATH")]
    output: Option<PathBuf>,
    /// Instead of rows, the passing point with most to spare (of equals, the smallest move), and the lines to paste
    /// into the rig file
    #[arg(long)]
    best: bool,
    #[command(flatten)]
    destination: Destination,
    /// Leave the ramps out
    #[arg(long)]
    no_ramps: bool,
    /// How many threads compute, instead of one for each core
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1024))]
    threads: Option<u16>,
    /// Allow more than 1000000000 points
    #[arg(long)]
    yes: bool,
    #[command(flatten)]
    asked: Asked,
}

/// So many points are seldom meant.
const MOST_POINTS: u128 = 1_000_000_000;

impl Sweep {
    pub fn run(&self, streams: &mut Streams) -> Outcome {
        let outcome = self.report(streams);
        rigs::outcome(outcome, &self.file, streams)
    }

    fn report(&self, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let file = RigFile::read(&self.file)?;
        let rig = file.rig(&self.asked.changes)?;
        let sweep = self.sweep(&rig)?;
        if self.is_drawn() {
            self.refuse_undrawable(&sweep)?;
        }
        self.refuse_too_many(sweep.rows())?;
        let pool = threads::pool(self.threads.map_or(0, usize::from))
            .map_err(|error| Trouble::Usage(format!("expected threads to compute with, found: {error}")))?;
        interrupt::end_gently();
        if let Some(output) = &self.output {
            if file.has(output) {
                let message =
                    format!("expected another file than the rig file for --output, found {}", shown(output));
                return Err(Trouble::Usage(message));
            }
            self.destination.refuse_same(output)?;
            // An earlier table may be replaced, another rig may not.
            if output.extension().is_some_and(|end| end == "toml") && output.exists() {
                let message = format!(
                    "expected a file for the table for --output, found the rig file {}",
                    shown(output)
                );
                return Err(Trouble::Usage(message));
            }
        }
        if self.destination.is_asked_for() && !self.best {
            let message = "expected --best with --write or --in-place, found a sweep of rows";
            return Err(Trouble::Usage(message.to_string()));
        }
        if self.is_drawn() {
            return self.draw(&sweep, &pool, streams);
        }
        if self.best {
            let place = self.destination.place(&file, &self.asked.changes)?;
            return self.report_best(&sweep, &pool, &file, place.as_ref(), streams);
        }
        self.report_rows(&sweep, &pool, streams)
    }

    fn sweep<'r>(&self, rig: &'r Rig) -> Result<Grid<'r>, Trouble> {
        let axes = self.vary.iter().map(|text| {
            Axis::parse(rig, text)
                .map_err(|unasked| usage(&format!("--vary {}", text.escape_debug()), &unasked))
        });
        let axes = axes.collect::<Result<Vec<_>, _>>()?;
        let cases = &rig.proposed().cases;
        let case = named(cases, self.case.as_deref(), "case", |case| case.name.as_deref())?;
        let is_for_reading = self.format == Format::Text || self.is_drawn();
        let page = (is_for_reading && !self.best).then(|| columns_for_a_page(rig));
        let shown = self.show.as_deref().or(page.as_deref());
        let make = if self.no_ramps { Grid::without_ramps } else { Grid::new };
        // A picture shows where the rig passes, whatever columns it has.
        let grid = make(rig, axes, case, shown, self.best || self.is_drawn()).map_err(|unasked| {
            let of_columns = matches!(unasked, Unasked::Column { .. } | Unasked::ColumnTwice(_));
            let option = if of_columns { "--show" } else { "--vary" };
            usage(option, &unasked)
        })?;
        Ok(if self.is_drawn() { grid.with_bounds() } else { grid })
    }

    fn is_drawn(&self) -> bool {
        matches!(self.format, Format::Svg | Format::Html)
    }

    fn refuse_undrawable(&self, sweep: &Grid<'_>) -> Result<(), Trouble> {
        if self.best {
            let message = "expected --format text, json or csv with --best, found a picture";
            return Err(Trouble::Usage(message.to_string()));
        }
        chart::can_be_drawn(sweep)
            .map_err(|NoPicture { why, help }| Trouble::Usage(format!("{why}\nhelp: {help}")))
    }

    /// The sweep as a picture, or as a page with it.
    fn draw(&self, sweep: &Grid<'_>, pool: &ThreadPool, streams: &mut Streams) -> Result<Outcome, Trouble> {
        let rows = self.rows(sweep)?;
        let mut progress = Progress::new(sweep, true);
        let (mut spots, mut without) = (Vec::new(), Without::default());
        let make = |chunk: &mut (Vec<Spot>, Without), point: &Point| {
            chunk.0.push(Spot::of(&rows, point.row, point.found.as_ref().ok()));
            chunk.1.see(point);
        };
        sweep.run(pool, make, |(chunk, none), points| {
            progress.add(points);
            spots.extend(chunk);
            without.and(none);
            if interrupted() { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        });
        progress.end();
        let (points, all) = (spots.len() as u128, sweep.rows());
        if points < all {
            return Err(Trouble::Usage(format!("interrupted after {points} of {all} points")));
        }
        let units = self.asked.units(sweep.rig());
        let nothing =
            || Trouble::Plain("expected a column with a number that is known, found none".to_string());
        let mut out = Output::begin(self.output.as_deref(), streams)?;
        without.told(sweep, spots.len() as u64, &mut out)?;
        let picture = chart::picture(sweep, units, &spots).ok_or_else(nothing)?;
        out.add(&match self.format {
            Format::Html => html::render(&chart::page(&rows, &self.file, &spots)),
            _ => picture + "\n",
        })?;
        out.end()?;
        Ok(Outcome::Done)
    }

    fn refuse_too_many(&self, rows: u128) -> Result<(), Trouble> {
        if u64::try_from(rows).is_err() {
            let message = format!("expected fewer than {} points, found {rows}", u64::MAX);
            return Err(Trouble::Usage(message));
        }
        if rows > MOST_POINTS && !self.yes {
            return Err(Trouble::Usage(format!(
                "expected at most {MOST_POINTS} points, found {rows}\nhelp: a larger step, or --yes if they are meant"
            )));
        }
        Ok(())
    }

    fn report_rows(
        &self,
        sweep: &Grid<'_>,
        pool: &ThreadPool,
        streams: &mut Streams,
    ) -> Result<Outcome, Trouble> {
        let rows = self.rows(sweep)?;
        let mut out = Output::begin(self.output.as_deref(), streams)?;
        let mut progress = Progress::new(sweep, self.output.is_some());
        let mut printing =
            Printing { rows: &rows, points: 0, held: 0, header: false, without: Without::default() };
        let mut failure = None;
        let make = |chunk: &mut Chunk, point: &Point| {
            chunk.with_rig += u64::from(point.found.is_ok());
            chunk.without.see(point);
            rows.push(&mut chunk.text, point.row, point.found.as_ref().ok());
        };
        sweep.run(pool, make, |chunk, points| {
            progress.add(points);
            failure = printing.take(chunk, points, &mut out).err();
            if failure.is_some() || out.closed() || interrupted() {
                return ControlFlow::Break(());
            }
            ControlFlow::Continue(())
        });
        progress.end();
        if let Some(trouble) = failure {
            return Err(trouble);
        }
        let (points, all) = (u128::from(printing.points), sweep.rows());
        if points < all && !out.closed() {
            let message = format!("interrupted after {points} of {all} points");
            return Err(Trouble::Usage(message));
        }
        printing.without.told(sweep, printing.points, &mut out)?;
        out.end()?;
        Ok(Outcome::Done)
    }

    fn rows<'s>(&self, sweep: &'s Grid<'s>) -> Result<Rows<'s>, Trouble> {
        let form = match self.format {
            Format::Csv => Form::Csv,
            Format::Json => Form::JsonLines,
            _ => Form::Table,
        };
        let rows = Rows::new(sweep, self.asked.units(sweep.rig()), form);
        rows.map_err(|error| Trouble::Plain(error.to_string()))
    }

    fn report_best(
        &self,
        sweep: &Grid<'_>,
        pool: &ThreadPool,
        file: &RigFile,
        place: Option<&Place>,
        streams: &mut Streams,
    ) -> Result<Outcome, Trouble> {
        let mut progress = Progress::new(sweep, true);
        let mut seen = Best::default();
        sweep.run(
            pool,
            |best: &mut Best, point| best.see(sweep, point),
            |best, points| {
                progress.add(points);
                seen.and(best);
                if interrupted() { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
            },
        );
        progress.end();
        if u128::from(seen.points) < sweep.rows() {
            let message = format!("interrupted after {} of {} points", seen.points, sweep.rows());
            return Err(Trouble::Usage(message));
        }
        let found = seen.row().and_then(|row| Some((row, sweep.point(row).found.ok()?)));
        let mut out = Output::begin(self.output.as_deref(), streams)?;
        let Some((row, found)) = found else {
            if self.format == Format::Text {
                out.add(&none_passes(&seen))?;
            }
            out.end()?;
            return Ok(Outcome::Fails);
        };
        if self.format == Format::Text {
            out.add(&best(sweep, self.asked.units(sweep.rig()), &seen, &found, row))?;
        } else {
            let rows = self.rows(sweep)?;
            let mut line = rows.header();
            rows.push(&mut line, row, Some(&found));
            out.add(&line)?;
        }
        if let Some(place) = place {
            let settings = sweep.settings(row);
            let changes: Vec<String> =
                settings.iter().map(|one| format!("{}={}", one.path, one.text)).collect();
            let settings: Vec<(Key, String)> = settings.into_iter().map(|one| (one.key, one.text)).collect();
            out.note(&place.write(file, &settings, &file.rig(&changes)?)?);
        }
        let measured = sweep.axes().iter().filter(|axis| axis.variable.is_measured_in_a_file());
        for axis in measured {
            out.note(&format!(
                "note: a rig file states {0} as measured: with the new value in the file the springs are taken to stand \
                 level under it, which changes the loads. Check the rig again, or try {0} with --set.",
                axis.variable.path
            ));
        }
        out.end()?;
        Ok(Outcome::Done)
    }
}

fn usage(option: &str, unasked: &Unasked) -> Trouble {
    let help = unasked.help().map(|help| format!("\nhelp: {help}")).unwrap_or_default();
    Trouble::Usage(format!("{option}: {unasked}{help}"))
}

/// The values of a point, as --set would take them.
fn place(sweep: &Grid<'_>, row: u64) -> String {
    let axes = sweep.axes().iter().zip(sweep.places(row));
    let values = axes.map(|(axis, place)| format!("{}={}", axis.variable.path, axis.series.text(place)));
    values.collect::<Vec<_>>().join(", ")
}

/// What a chunk of points gives.
#[derive(Default)]
struct Chunk {
    text: String,
    with_rig: u64,
    without: Without,
}

/// The points that have no rig.
#[derive(Default)]
struct Without {
    points: u64,
    /// The first of them, and why it has none.
    first: Option<(u64, String)>,
}

impl Without {
    fn see(&mut self, point: &Point) {
        if let Err(why) = &point.found {
            self.points += 1;
            self.first.get_or_insert_with(|| (point.row, why.to_string()));
        }
    }

    /// Counts later points in.
    fn and(&mut self, later: Self) {
        self.points += later.points;
        self.first = self.first.take().or(later.first);
    }

    /// Notes them, of so many points; a sweep of nothing else is a mistake.
    fn told(&self, sweep: &Grid<'_>, of: u64, out: &mut Output<'_>) -> Result<(), Trouble> {
        let Some((row, why)) = &self.first else { return Ok(()) };
        let place = place(sweep, *row);
        if self.points == of {
            return Err(Trouble::Plain(format!(
                "expected a point with loads, found none; at {place}: {why}"
            )));
        }
        let points = self.points;
        out.note(&format!("note: {points} of {of} points have no loads; the first, at {place}: {why}"));
        Ok(())
    }
}

/// Rows on their way out. Nothing goes out before a point has loads: a sweep without any is a mistake.
struct Printing<'s> {
    rows: &'s Rows<'s>,
    points: u64,
    /// How many points of the beginning wait for one with loads.
    held: u64,
    header: bool,
    without: Without,
}

/// Held rows are made again this many at a time.
const HELD_TOGETHER: u64 = 512;

impl Printing<'_> {
    fn take(&mut self, chunk: Chunk, points: u64, out: &mut Output<'_>) -> Result<(), Trouble> {
        self.points += points;
        self.without.and(chunk.without);
        if !self.header {
            if chunk.with_rig == 0 {
                self.held += points;
                return Ok(());
            }
            self.header = true;
            out.add(&self.rows.header())?;
            for from in (0..self.held).step_by(HELD_TOGETHER as usize) {
                let mut text = String::new();
                for row in from..self.held.min(from + HELD_TOGETHER) {
                    self.rows.push(&mut text, row, None);
                }
                out.add(&text)?;
            }
        }
        out.add(&chunk.text)
    }
}

/// Where rows go: to stdout, or to a file.
struct Output<'s> {
    streams: &'s mut Streams,
    file: Option<(PathBuf, Draft)>,
}

impl<'s> Output<'s> {
    fn begin(path: Option<&Path>, streams: &'s mut Streams) -> Result<Self, Trouble> {
        let begin = |path: &Path| match Draft::begin(path) {
            Ok(draft) => Ok((path.to_path_buf(), draft)),
            Err(error) => Err(unwritable(path, &error)),
        };
        let file = path.map(begin).transpose()?;
        Ok(Self { streams, file })
    }

    fn add(&mut self, text: &str) -> Result<(), Trouble> {
        if let Some((path, file)) = &mut self.file {
            return file.add(text).map_err(|error| unwritable(path, &error));
        }
        self.streams.print_lines(text);
        Ok(())
    }

    fn closed(&self) -> bool {
        self.streams.closed()
    }

    fn note(&mut self, text: &str) {
        self.streams.complain(text);
    }

    fn end(self) -> Result<(), Trouble> {
        match self.file {
            Some((path, file)) => file.keep().map_err(|error| unwritable(&path, &error)),
            None => Ok(()),
        }
    }
}

/// How far a long sweep has come, on a terminal that shows no rows.
struct Progress {
    bar: ProgressBar,
    /// When it is shown, unless the sweep is over by then.
    shown_from: Option<Instant>,
}

/// What is over before this needs no progress.
const SOON: Duration = Duration::from_millis(500);

impl Progress {
    fn new(sweep: &Grid<'_>, rows_go_elsewhere: bool) -> Self {
        let shown =
            std::io::stderr().is_terminal() && (rows_go_elsewhere || !std::io::stdout().is_terminal());
        let bar = ProgressBar::hidden();
        bar.set_length(u64::try_from(sweep.rows()).unwrap_or(u64::MAX));
        if let Ok(style) = ProgressStyle::with_template("{bar:30} {percent:>3} % of {len} points, {eta} left")
        {
            bar.set_style(style);
        }
        Self { bar, shown_from: shown.then(|| Instant::now() + SOON) }
    }

    fn add(&mut self, points: u64) {
        self.bar.inc(points);
        if self.shown_from.is_some_and(|from| Instant::now() >= from) {
            self.shown_from = None;
            self.bar.set_draw_target(ProgressDrawTarget::stderr());
        }
    }

    fn end(&self) {
        self.bar.finish_and_clear();
    }
}
