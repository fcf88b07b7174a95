//! The key of one value in one rig file.

use std::fmt;

/// Which elements of which lists a key names, counted from 0; unused places are zero.
pub type At = [usize; 2];

/// One key of one rig file: a row of the table and the list elements meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Key {
    /// The row's path, with `*` for a list element.
    pub path: &'static str,
    /// Which elements.
    pub at: At,
}

impl Key {
    /// A key outside any list.
    pub fn new(path: &'static str) -> Self {
        Self { path, at: [0, 0] }
    }

    /// A key inside one list, of the element counted from 0.
    pub fn of(path: &'static str, element: usize) -> Self {
        Self { path, at: [element, 0] }
    }
}

/// The path with elements counted from 1, as a change would name it.
impl fmt::Display for Key {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut elements = self.at.iter();
        for (i, segment) in self.path.split('.').enumerate() {
            if i > 0 {
                out.write_str(".")?;
            }
            match segment {
                "*" => write!(out, "{}", elements.next().map_or(0, |at| at + 1))?,
                _ => out.write_str(segment)?,
            }
        }
        Ok(())
    }
}
