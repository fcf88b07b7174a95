//! The mechanics, proved from outside: by closed forms, by other methods, and by what must hold of any load.

mod beam;
mod settling;
mod traverse;
