//! What the stops of a snippet can be: the names in scope, so that what is inserted names what there is.

use super::{Choice, CompletionContext, names};

/// More to choose from is no help.
const MOST: usize = 20;

/// The stops of one snippet, asked in their order.
pub(super) struct Stops<'a> {
    at: CompletionContext<'a>,
    /// The word that begins the line.
    verb: &'static str,
    /// The faces asked for so far.
    faces: usize,
}

impl<'a> Stops<'a> {
    /// Those of a line that begins at the cursor, with this word.
    pub(super) fn of(at: CompletionContext<'a>, verb: &'static str) -> Self {
        Self { at, verb, faces: 0 }
    }

    /// What may stand for the next word in capitals of a form, the likeliest first, twenty at most; none
    /// where nothing is known of it.
    pub(super) fn choices(&mut self, slot: &str) -> Vec<String> {
        let at = self.at;
        let mut found = match slot {
            "FACE" => return self.face(),
            "MATERIAL" => names::materials(at),
            "END" => names::ends(at),
            "PART" => self.parts(),
            "BENCH" => names::benches(at),
            "PEN" => names::pens(at),
            _ => Vec::new(),
        };
        found.sort_by_key(|choice| choice.rank);
        labels(found)
    }

    /// The parts; only one that is cut is filled.
    fn parts(&self) -> Vec<Choice> {
        let design = &self.at.cursor.analysis.design;
        let mut parts = names::parts(self.at);
        let is_cut = |name: &str| design.part(name).is_some_and(|part| !part.is_bought());
        parts.retain(|choice| self.verb != "fill" || is_cut(&choice.label));
        parts
    }

    /// A joint's faces: first any, then one of another part than the first of those is of, then what is
    /// named in between, as a shoulder.
    fn face(&mut self) -> Vec<String> {
        let mut all = names::faces(self.at);
        self.faces += 1;
        all.sort_by_key(|choice| choice.rank);
        let part = |choice: &Choice| choice.label.split('.').next().map(str::to_owned);
        match self.faces {
            1 => {}
            2 => {
                let first = all.first().and_then(part);
                all.sort_by_key(|choice| part(choice) == first);
            }
            _ => all.sort_by_key(|choice| std::cmp::Reverse(choice.rank)),
        }
        labels(all)
    }
}

fn labels(choices: Vec<Choice>) -> Vec<String> {
    let labels = choices.into_iter().map(|choice| choice.label);
    labels.take(MOST).collect()
}
