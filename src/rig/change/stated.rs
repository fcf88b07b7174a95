//! Changes as they are stated beside the file: `PATH=VALUE`, `PATH+=VALUE`, `PATH-=VALUE`.

use super::{Change, Origin, Stated, Verb};
use crate::quantity::Kind;
use crate::rig::defaults;
use crate::rig::inputs::{Input, Key, keys};
use crate::rig::problem::Fault;
use crate::rig::read::{Mistake, quantity};
use crate::rig::setup::Setup;
use crate::rig::source::Span;

impl Origin {
    /// Makes the changes that these texts state; what is wrong with them becomes the draft's problems.
    pub fn take<S: AsRef<str>>(&mut self, changes: &[S]) {
        // Paths may name what only a default brings, such as the one case of a file without cases.
        let mut with_defaults = self.draft.setup.clone();
        defaults::resolve(&mut with_defaults);
        for text in changes {
            let text = text.as_ref();
            let whole = Span { source: self.sources.add("--set", text), range: 0..text.len() };
            match read(text, &whole, &with_defaults) {
                Ok(changes) => changes.into_iter().for_each(|change| self.make(change)),
                Err((fault, at)) => {
                    let at = at.map_or_else(|| whole.clone(), |at| whole.within(at));
                    self.draft.blame(fault, Some(at));
                }
            }
        }
    }
}

/// The changes that a text states, one a key.
fn read(text: &str, whole: &Span, setup: &Setup) -> Result<Vec<Change>, Mistake> {
    let sides = text.split_once('=').filter(|(path, _)| !path.trim_matches([' ', '+', '-']).is_empty());
    let Some((path, value)) = sides else {
        return Err((Fault::NotAChange(text.escape_debug().to_string()), None));
    };
    let (path, sign) = match (path.strip_suffix('+'), path.strip_suffix('-')) {
        (Some(path), _) => (path, Some(1.0)),
        (_, Some(path)) => (path, Some(-1.0)),
        _ => (path, None),
    };
    let keys = keys(path.trim(), setup).map_err(|fault| (fault, None))?;
    let Some(input) = keys.first().and_then(Key::input) else { return Ok(Vec::new()) };
    let bare = unquoted(value.trim());
    let quoted = usize::from(bare.len() < value.trim().len());
    let from = text.len() - value.trim_start().len() + quoted;
    let at = from..from + bare.len();
    let (verb, bound) = verb(input, bare, sign).map_err(|(fault, inside)| {
        let inside = inside.map_or_else(|| at.clone(), |inside| from + inside.start..from + inside.end);
        (fault, Some(inside))
    })?;
    let text = Stated { whole: whole.clone(), value: whole.within(at), bound };
    Ok(keys.into_iter().map(|key| Change { key, verb: verb.clone(), text: Some(text.clone()) }).collect())
}

/// What happens to a key, and the bound that its text states. With a sign, a quantity is added or taken away.
fn verb(input: &Input, text: &str, sign: Option<f64>) -> Result<(Verb, Option<f64>), Mistake> {
    match (input.kind(), sign) {
        (Some(kind), None) => {
            let (value, bound) = quantity(input, kind, text)?;
            Ok((Verb::Set(value), bound))
        }
        (Some(kind @ (Kind::Length | Kind::Weight | Kind::Share)), Some(sign)) => {
            let (by, bound) = crate::quantity::parse::parse_bounded(text, kind)
                .map_err(|error| (Fault::Quantity(error.fault), Some(error.at)))?;
            Ok((Verb::Add(sign * by), bound))
        }
        (_, Some(_)) => Err((Fault::CannotAdd(input.meaning), None)),
        (None, None) => Ok((Verb::Take(text.to_string()), None)),
    }
}

/// A value without the quotes that a TOML file would need.
fn unquoted(value: &str) -> &str {
    value.strip_prefix('"').and_then(|value| value.strip_suffix('"')).unwrap_or(value)
}
