//! How a statement is written, phrase by phrase, for help while typing and for snippets.

use quillet_syntax::grammar::{Place, slots, statement_of};

/// How a statement is written, as its maker is shown it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Form {
    /// The whole line.
    pub(crate) line: &'static str,
}

impl Form {
    /// Its first word.
    pub(crate) fn word(&self) -> &'static str {
        self.line.split(' ').next().unwrap_or("")
    }

    /// What comes after the first word, phrase by phrase; an optional phrase is one.
    pub(crate) fn phrases(&self) -> Vec<Phrase> {
        let mut phrases = Vec::new();
        let mut rest = self.line[self.word().len()..].trim_start();
        while !rest.is_empty() {
            let optional = rest.starts_with('[');
            let length = match optional || rest.starts_with('(') {
                true => closing(rest),
                false => required(rest),
            };
            let (text, after) = rest.split_at(length);
            phrases.push(Phrase {
                text: text.trim_end(),
                optional,
            });
            rest = after.trim_start();
        }
        phrases
    }

    /// The line as a snippet: the required phrases, with a stop at each thing to fill in, a choice of what
    /// `known` says of it where it says something. Of a choice of phrases the first is taken; a choice of
    /// words alone stays one.
    pub(crate) fn snippet(&self, known: &mut dyn FnMut(&str) -> Vec<String>) -> String {
        let mut out = self.word().to_owned();
        let mut stop = 0;
        for phrase in self.phrases().iter().filter(|phrase| !phrase.optional) {
            let choices: Vec<&str> = phrase.choices().collect();
            if choices.len() > 1 && !choices.iter().any(|choice| is_to_fill_in(choice)) {
                stop += 1;
                out.push_str(&format!(" ${{{stop}|{}|}}", choices.join(",")));
                continue;
            }
            for part in required_words(choices[0]) {
                out.push(' ');
                out.push_str(&filled(part, self.word(), &mut stop, known));
            }
        }
        out
    }

    /// Whether a word of the language, or a sign, stands anywhere in it.
    pub(crate) fn has(&self, word: &str) -> bool {
        self.phrases()
            .iter()
            .any(|phrase| phrase.after(word).is_some())
    }
}

/// A phrase of a form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Phrase {
    /// As it stands in the form, brackets included.
    pub(crate) text: &'static str,
    /// Whether it may be left out.
    pub(crate) optional: bool,
}

impl Phrase {
    /// What there is a choice of; one where there is none.
    fn choices(&self) -> impl Iterator<Item = &'static str> {
        self.text.trim_matches(['(', ')', '[', ']']).split(" | ")
    }

    /// What is still to say after a word or sign of this phrase; none where it has none such.
    pub(crate) fn after(&self, word: &str) -> Option<&'static str> {
        self.choices().find_map(|choice| {
            let mut parts = choice.split(' ');
            let at = parts.position(|part| part.trim_matches(['[', ']']) == word)?;
            Some(choice.splitn(at + 2, ' ').nth(at + 1).unwrap_or(""))
        })
    }

    /// Whether it, or one of its choices, begins with what is filled in: no word leads to it.
    pub(crate) fn begins_with_a_value(&self) -> bool {
        self.choices()
            .any(|choice| choice.starts_with(|c: char| c.is_ascii_uppercase()))
    }
}

/// Whether a phrase holds anything to fill in.
pub(crate) fn is_to_fill_in(text: &str) -> bool {
    text.contains(|c: char| c.is_ascii_uppercase() || c == '…')
}

/// The form of the statement of a place that begins with a word.
pub(crate) fn form(place: Place, word: &str) -> Option<Form> {
    statement_of(place, word).map(|statement| Form {
        line: statement.form,
    })
}

/// Up to the bracket that closes the first one.
fn closing(text: &str) -> usize {
    let mut depth = 0_usize;
    for (at, c) in text.char_indices() {
        match c {
            '[' | '(' => depth += 1,
            ']' | ')' => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return at + 1;
        }
    }
    text.len()
}

/// Up to the end of the first word in capitals, or of a block.
fn required(text: &str) -> usize {
    let mut end = 0;
    for part in text.split_inclusive(' ') {
        if end > 0 && part.starts_with(['[', '(']) {
            break;
        }
        end += part.len();
        if is_to_fill_in(part) {
            break;
        }
    }
    end
}

/// A part of a phrase as a snippet has it.
fn filled(
    part: &str,
    verb: &str,
    stop: &mut usize,
    known: &mut dyn FnMut(&str) -> Vec<String>,
) -> String {
    if part == "{…}" {
        return "{\n\t$0\n}".into();
    }
    let mut out = String::new();
    let mut rest = part;
    while let Some(start) = rest.find(|c: char| c.is_ascii_uppercase()) {
        let upper = |c: char| c.is_ascii_uppercase() || c == '-';
        let length = rest[start..]
            .find(|c| !upper(c))
            .unwrap_or(rest.len() - start);
        *stop += 1;
        out.push_str(&rest[..start]);
        let slot = &rest[start..start + length];
        let choices = known(slot);
        out.push_str(&match choices.is_empty() {
            true => format!("${{{stop}:{}}}", example(slot, verb)),
            false => stop_of(*stop, &choices),
        });
        rest = &rest[start + length..];
    }
    out + rest
}

/// The words of a phrase that may not be left out.
fn required_words(phrase: &str) -> impl Iterator<Item = &str> {
    let mut depth = 0_usize;
    phrase.split(' ').filter(move |word| {
        let optional = depth > 0 || word.starts_with('[');
        depth += word.matches('[').count();
        depth -= word.matches(']').count();
        !optional
    })
}

/// What stands at a stop until it is filled in: what it wants, where such a word could be read there.
fn example(slot: &str, verb: &str) -> String {
    let meant = slots()
        .iter()
        .find(|it| it.name == slot && (it.after.is_empty() || it.after.contains(&verb)));
    match meant {
        Some(it) if matches!(it.takes, "designation" | "call") => it.sample.to_owned(),
        _ => slot.to_lowercase(),
    }
}

/// A stop at which one of several is chosen, as a snippet writes it.
pub fn stop_of(number: usize, choices: &[String]) -> String {
    let escaped = choices.iter().map(|it| {
        let signs = ['\\', ',', '|'];
        signs.iter().fold(it.clone(), |text, sign| {
            text.replace(*sign, &format!("\\{sign}"))
        })
    });
    let all: Vec<String> = escaped.collect();
    format!("${{{number}|{}|}}", all.join(","))
}

#[cfg(test)]
mod tests {
    use super::*;
    use quillet_syntax::grammar::{WORDS, statements};

    #[test]
    fn every_word_that_goes_on_a_statement_stands_in_a_form() {
        let goes_on = |place| {
            use Place::*;
            matches!(
                place,
                Header
                    | Form
                    | Stock
                    | PartTail
                    | StationTail
                    | Reach
                    | CutTail
                    | SideTail
                    | Joint
                    | JointTail
                    | SeatTail
                    | Want
                    | Accept
                    | BenchTail
            )
        };
        let forms: Vec<_> = statements().map(|it| Form { line: it.form }).collect();
        for word in WORDS.iter().filter(|word| goes_on(word.place)) {
            assert!(forms.iter().any(|form| form.has(word.text)), "{word:?}");
        }
    }

    #[test]
    fn phrases_and_snippets_follow_from_the_line() {
        let drill = form(Place::Cut, "drill").unwrap();
        let phrases: Vec<_> = drill.phrases().iter().map(|phrase| phrase.text).collect();
        assert_eq!(
            phrases,
            [
                "SIZE",
                "(to DEPTH | for LENGTH | through)",
                "[at START]",
                "[point ANGLE]",
                "[on DIAMETER [indexed COUNT] [clock ANGLE] [takes PART]]",
                "[as FACE]"
            ]
        );
        let snippet = |place, word| form(place, word).unwrap().snippet(&mut |_| Vec::new());
        assert_eq!(
            snippet(Place::Cut, "drill"),
            "drill ${1:size} to ${2:depth}"
        );
        assert_eq!(
            snippet(Place::Cut, "thread"),
            "thread ${1:thread} ${2|inside,outside|} to ${3:depth}"
        );
        assert_eq!(
            snippet(Place::Material, "speed"),
            "speed ${1:low}..${2:high}"
        );
        assert_eq!(snippet(Place::Part, "outside"), "outside {\n\t$0\n}");
        assert_eq!(
            snippet(Place::Item, "part"),
            "part ${1:name} from ${2:first} to ${3:second} {\n\t$0\n}"
        );
    }

    #[test]
    fn what_is_known_of_a_stop_is_a_choice_and_its_signs_are_escaped() {
        let mut known = |slot: &str| match slot {
            "FACE" => vec!["cap.mouth".to_owned(), r"a,b|c\d".to_owned()],
            _ => Vec::new(),
        };
        let push = form(Place::Pen, "push").unwrap().snippet(&mut known);
        let face = r"cap.mouth,a\,b\|c\\d";
        assert_eq!(
            push,
            format!("push ${{1|{face}|}} onto ${{2|{face}|}} by ${{3:length}}")
        );
    }

    #[test]
    fn what_is_still_to_say_follows_the_word() {
        let phrases = form(Place::Station, "at").unwrap().phrases();
        let after = |word| phrases.iter().find_map(|phrase| phrase.after(word));
        assert_eq!(after("bead"), Some("RADIUS"));
        assert_eq!(after("dome"), Some(""));
        assert_eq!(after("tenon"), None);
    }
}
