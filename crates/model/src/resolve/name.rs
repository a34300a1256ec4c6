//! Names recorded where they are used, and names that are not known.

use super::Resolver;
use super::frame::Frame;
use super::lines::incomplete;
use super::unknown_name::UnknownName;
use crate::DefinitionKind;
use quillet_standards::material;
use quillet_syntax::{Finding, Severity, Span, ast, grammar};

impl<'a> Resolver<'a> {
    /// Records that a definition is used at a place.
    pub(super) fn refer(&mut self, span: Span, definition: crate::DefinitionId) {
        self.design
            .names
            .references
            .push(crate::Reference { span, definition });
    }

    /// Records a reference to an item of one of the wanted kinds, or says it is unknown.
    pub(super) fn refer_to(
        &mut self,
        name: &ast::Name,
        wanted: &[DefinitionKind],
        frame: &Frame<'a>,
    ) -> bool {
        if let Some(entry) = self.scope.get(&name.text) {
            self.refer(name.span, entry.definition);
            let kind = self.design.names.definitions[entry.definition].kind;
            if wanted.contains(&kind) {
                return true;
            }
        }
        self.unknown(&name.text, name.span, wanted, frame);
        false
    }

    /// Says that a name is not known, or is the name of something else.
    pub(super) fn unknown(
        &mut self,
        name: &str,
        at: Span,
        wanted: &[DefinitionKind],
        frame: &Frame<'a>,
    ) {
        if name.is_empty() {
            // That it is missing has been told where the text was read.
            return;
        }
        if let Some(finding) = self.missing_before(name, at, wanted) {
            self.emit(finding);
            return;
        }
        let kind = wanted.first().map_or("name", |kind| kind.word());
        if let Some(entry) = self.scope.get(name) {
            let is = &self.design.names.definitions[entry.definition];
            let is_another = format!(
                "{name} is the name of a {}; a {kind} is expected here",
                is.kind.word()
            );
            let finding = Finding::new("unknown-name", Severity::Error, at, is_another);
            let finding = finding.label(is.span, "given its name here");
            self.emit(finding);
            return;
        }
        let finding = Finding::new(
            "unknown-name",
            Severity::Error,
            at,
            format!("no {kind} is called {name}"),
        );
        self.unknown += 1;
        let known = self.compared(wanted, frame);
        let finding = match minus(name, |word| known.contains(&word)) {
            Some(spaced) => finding.hint("minus stands between blanks").fix(
                format!("write {spaced}"),
                at,
                spaced,
            ),
            None => {
                let near = quillet_syntax::nearest(name, known).map(str::to_owned);
                let material = wanted.contains(&DefinitionKind::Material);
                let akin = material.then(|| akin(name)).flatten();
                if near.is_none() {
                    self.astray.push(UnknownName {
                        name: name.into(),
                        at,
                        wanted: wanted.to_vec(),
                    });
                }
                offer(
                    finding,
                    at,
                    near.as_deref(),
                    &match kind {
                        _ if akin.is_some() => akin.unwrap_or_default(),
                        "named quantity" => format!("define it, as in: let {name} = 12"),
                        _ => "define it here, or use the file that does".to_owned(),
                    },
                )
            }
        };
        self.emit(finding);
    }

    /// The names that an unknown one is compared with.
    fn compared<'n>(&'n self, wanted: &'n [DefinitionKind], frame: &'n Frame<'a>) -> Vec<&'n str> {
        // Of many, the first are looked at closely.
        if self.unknown > MOST_COMPARED {
            return Vec::new();
        }
        let local = frame.local.iter().map(|it| &*it.0.name.text);
        let mut known: Vec<&str> = self.scope.names_of(wanted).chain(local).collect();
        if wanted.contains(&DefinitionKind::Material) {
            known.extend(material::all().map(|kind| kind.kind()));
        }
        known
    }
}

impl Resolver<'_> {
    /// Of `dia smooth`, that a diameter is missing: a word of the language stands in its place.
    fn missing_before(&self, name: &str, at: Span, wanted: &[DefinitionKind]) -> Option<Finding> {
        let is_joined = wanted.contains(&DefinitionKind::Let) && grammar::joins(name);
        if !is_joined || self.scope.get(name).is_some() {
            return None;
        }
        let text = &self.design.file(at.file)?.text;
        let expected = quillet_syntax::expected(at.file, text, at.start as usize)?;
        let missing = expected.things.first()?.phrase();
        let message = format!("{missing} is missing before {name}");
        Some(incomplete(at, message, &format!("write it before {name}")))
    }
}

/// Of so many unknown names the nearest known one is looked for.
const MOST_COMPARED: usize = 100;

/// The built-in materials that a name may mean by one of its words: `resin`.
pub(super) fn akin(name: &str) -> Option<String> {
    let kinds: Vec<&str> = material::akin(name).collect();
    (!kinds.is_empty()).then(|| format!("there is {}", kinds.join(", ")))
}

/// Offers the nearest name as a cure, or else a hint.
pub(super) fn offer(finding: Finding, at: Span, near: Option<&str>, hint: &str) -> Finding {
    match near {
        Some(near) => finding
            .hint(format!("did you mean {near}?"))
            .fix(format!("write {near}"), at, near)
            .mending(),
        None => finding.hint(hint),
    }
}

/// `shoulder-2` as `shoulder - 2`, where `shoulder` is known.
fn minus(name: &str, known: impl Fn(&str) -> bool) -> Option<String> {
    let (left, right) = name.rsplit_once('-')?;
    let number = right.chars().all(|c| c.is_ascii_digit() || c == '.') && !right.is_empty();
    (known(left) && (number || known(right))).then(|| format!("{left} - {right}"))
}
