//! Source: 49 CFR 393.48(d) (72 FR, 6 March 2007), read: surge brakes on a trailer of up to 12,000 lb GVWR where that is at
//! most 1.75 times the tow vehicle's, up to 20,000 lb at most 1.25 times, and none above. Worked in a trade summary of the
//! rule, quoted: a tow vehicle of 6,000 lb may draw 10,500 lb, one of 15,000 lb 18,750 lb.
//!
//! Tolerance: none. A pound beyond the worked figure is past the limit.

use crate::rigs::assessed;
use bunkline::fit::Verdict;

fn verdict(trailer: u32, tow: u32) -> Verdict {
    let text = format!(
        "format = 1\n[trailer]\ngvwr = \"{trailer} lb\"\n[trailer.brakes]\nkind = \"surge\"\n[tow]\ngvwr = \"{tow} lb\"\n[[trailer.axles]]\nstation = \"20 ft\"\n"
    );
    assessed(&text, &[]).check("surge-ratio").expect("surge brakes").verdict
}

#[test]
fn what_a_tow_vehicle_may_draw_with_surge_brakes() {
    assert_eq!(verdict(10_500, 6000), Verdict::Pass);
    assert_eq!(verdict(10_501, 6000), Verdict::Advise);
    assert_eq!(verdict(18_750, 15_000), Verdict::Pass);
    assert_eq!(verdict(18_751, 15_000), Verdict::Advise);
}

#[test]
fn the_ratio_changes_with_the_trailer_and_ends() {
    // 12,000 lb behind 8,000 lb is 1.5 times; a pound more must keep to 1.25.
    assert_eq!(verdict(12_000, 8000), Verdict::Pass);
    assert_eq!(verdict(12_001, 8000), Verdict::Advise);
    assert_eq!(verdict(20_000, 30_000), Verdict::Pass);
    assert_eq!(verdict(20_001, 30_000), Verdict::Advise);
}

#[test]
fn other_brakes_are_not_asked() {
    let text = "format = 1\n[trailer]\ngvwr = \"15000 lb\"\n[trailer.brakes]\nkind = \"electric\"\n[tow]\ngvwr = \"6000 lb\"\n[[trailer.axles]]\nstation = \"20 ft\"\n";
    assert!(assessed(text, &[]).check("surge-ratio").is_none());
}
