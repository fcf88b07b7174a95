//! Several rigs as the cases of a test suite, in JUnit's XML, which programs that run tests show.

use crate::fit::{RigVerdict, Row, Verdict};
use crate::quantity::show::plain;
use crate::report::baseline::{Changed, for_gone};
use crate::report::sections::{Report, worst_first};
use crate::report::{Subject, words};
use quick_junit::{NonSuccessKind, SerializeError, TestCase, TestCaseStatus, TestSuite};

/// One rig of several.
pub use quick_junit::TestCase as Case;

/// A rig as a test case, which fails unless it `passes`: a flag may let an incomplete rig through.
pub fn case(subject: &Subject<'_>, passes: bool) -> Case {
    let report = Report::new(subject, None);
    let verdict = subject.findings.assessment.verdict;
    let said = format!("{}: {}", subject.name(), report.reason(verdict).plain());
    if passes {
        let mut case = named(subject.path, TestCaseStatus::success());
        case.set_system_out(plain(&said));
        return case;
    }
    let kind = words::rig_verdict(verdict);
    not_passed(NonSuccessKind::Failure, subject.path, kind, &said, &report.in_words())
}

/// A file that could not be read, or whose rig does not settle, as a test case: why, a mistake a line.
pub fn unread(path: &str, why: &[String]) -> Case {
    let first = why.first().map_or("", String::as_str);
    not_passed(NonSuccessKind::Error, path, "not-read", first, why)
}

/// A rig as a test case that fails where the rig got worse since a baseline.
pub fn since(rig: &Changed) -> Case {
    if rig.since.is_worse() {
        return not_passed(NonSuccessKind::Failure, &rig.path, "worse", &rig.said(), &rig.lines());
    }
    named(&rig.path, TestCaseStatus::success())
}

/// A rig of a baseline that is gone, as a test case that fails.
pub fn gone(path: &str, baseline: &str) -> Case {
    let said = format!("is in {baseline}, and gone");
    not_passed(NonSuccessKind::Failure, path, "gone", &said, &[for_gone(baseline)])
}

fn not_passed(status: NonSuccessKind, path: &str, kind: &str, said: &str, lines: &[String]) -> Case {
    let lines: Vec<_> = lines.iter().map(|line| plain(line)).collect();
    let mut status = TestCaseStatus::non_success(status);
    status.set_type(kind).set_message(plain(said)).set_description(lines.join("\n"));
    named(path, status)
}

fn named(path: &str, status: TestCaseStatus) -> Case {
    let mut case = TestCase::new(plain(path), status);
    case.set_classname("bunkline");
    case
}

/// All cases in one file.
///
/// # Errors
/// Never in practice: every text can be written as XML.
pub fn render(cases: Vec<Case>) -> Result<String, SerializeError> {
    let mut suite = TestSuite::new("rigs");
    suite.add_test_cases(cases);
    let mut report = quick_junit::Report::new("bunkline");
    report.add_test_suite(suite);
    report.to_string()
}

impl Report<'_> {
    /// What keeps a rig from passing, a line each: rows that fail, those that are unsure, keys that a verdict needs.
    fn in_words(&self) -> Vec<String> {
        let rows = &self.findings().assessment.rows;
        let mut failing: Vec<&Row> = rows.iter().filter(|row| row.verdict == Verdict::Fail).collect();
        failing.sort_by(|a, b| worst_first(a, b));
        let failing = failing.into_iter().map(|row| {
            let place = self.place(row.case, row.ramp);
            format!("FAIL {}: {}{place}", row.id(), words::fault(row, self.units()))
        });
        let unsure = self.unsure().into_iter();
        let unsure = unsure.map(|(i, row)| format!("unsure {}: {}", row.id(), self.doubt(i, row)));
        let gaps = self.gaps();
        let needed = gaps.iter().filter(|gap| gap.is_needed());
        let needed = needed.map(|gap| format!("needs {}: {} For {}.", gap.key, gap.how, gap.what_for()));
        let incomplete = self.findings().assessment.verdict == RigVerdict::Incomplete;
        failing.chain(unsure).chain(needed.filter(|_| incomplete)).collect()
    }
}
