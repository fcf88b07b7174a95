//! Any bytes, taken for a rig file: read, examined, placed and reported on in every form.

#![no_main]

use libfuzzer_sys::fuzz_target;

#[path = "../../library/sound/mod.rs"]
mod sound;

fuzz_target!(|bytes: &[u8]| {
    if let Ok(text) = std::str::from_utf8(bytes) {
        sound::take(text, &[]);
        sound::take_place(text, bunkline::study::place::Part::Boat);
    }
});
