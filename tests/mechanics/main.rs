//! The mechanics, proved from outside: by closed forms, by other methods, and by what must hold of any load.

mod beam;
mod bed;
mod brakes;
#[path = "../shared/cases.rs"]
mod cases;
mod frame;
mod jack;
mod launch;
mod rolling;
mod settling;
mod sway;
mod tie_downs;
mod traverse;
mod winch;
