//! Items at file level: materials, threads, stock, benches, limits, `let`s.

use super::eval::Frame;
use super::{Resolver, shared};
use crate::{
    Acceptance, BlankDef, LimitLine, Limits, Material, NameKind, Quantity, Stock, ThreadDef,
};
use quillet_geometry::Length;
use quillet_standards::material;
use quillet_standards::thread::ThreadForm;
use quillet_syntax::ast::{self, ItemKind, MaterialLineKind};
use quillet_syntax::{Finding, Severity, Span};
use std::sync::Arc;

impl<'a> Resolver<'a> {
    /// Resolves every item but parts and pens. Materials and threads come first, since
    /// order never matters.
    pub(super) fn file_items(&mut self, frame: &mut Frame<'a>) {
        let items = self.scope.items.clone();
        for item in &items {
            match &item.kind {
                ItemKind::Material(it) if self.scope.is_first(item, &it.name) => {
                    self.material_item(it, frame);
                }
                ItemKind::Thread(it) if self.scope.is_first(item, &it.name) => {
                    self.thread_item(it, item.span, frame);
                }
                _ => {}
            }
        }
        for item in &items {
            match &item.kind {
                ItemKind::Let(it) if self.scope.is_first(item, &it.name) => {
                    self.eval_value(&it.value, frame);
                }
                ItemKind::Blank(it) if self.scope.is_first(item, &it.name) => {
                    if let Some(stock) = self.stock(&it.stock, frame) {
                        let blank = BlankDef {
                            name: it.name.clone(),
                            span: item.span,
                            stock,
                        };
                        self.design.blanks.push(Arc::new(blank));
                    }
                }
                ItemKind::Bench(it) if self.scope.is_first(item, &it.name) => {
                    self.bench_item(it, item.span, frame);
                }
                ItemKind::Limit(it) => {
                    if let Some(line) = self.limit(it, frame) {
                        self.design.limits.0.push(line);
                    }
                }
                _ => {}
            }
        }
    }

    fn material_item(&mut self, item: &ast::Material, frame: &mut Frame<'a>) {
        let mut kind = None;
        let (mut density, mut wall, mut speed) = (None, None, None);
        for line in &item.lines {
            match &line.kind {
                MaterialLineKind::Kind(name) => kind = self.material_kind(name),
                MaterialLineKind::Density(sum) => {
                    density = self.amount(sum, "a density in g/cm³", Quantity::as_number, frame);
                }
                MaterialLineKind::Wall(sum) => wall = self.positive(sum, "a wall", frame),
                MaterialLineKind::Speed(span) => speed = self.speeds(span, frame),
                MaterialLineKind::Bad => {}
            }
        }
        let Some(kind) = kind else {
            if !item
                .lines
                .iter()
                .any(|line| matches!(line.kind, MaterialLineKind::Kind(_)))
            {
                self.say(
                    Finding::new(
                        "incomplete",
                        Severity::Error,
                        item.name.span,
                        format!("the material {} says no kind", item.name.text),
                    )
                    .hint("add a line such as: kind acrylic"),
                );
            }
            return;
        };
        self.design.materials.push(Arc::new(Material {
            name: shared(&item.name),
            title: item.title.clone(),
            span: Some(item.name.span),
            kind,
            density_g_cm3: density
                .filter(|it| *it > 0.0)
                .unwrap_or(kind.density().typical_kg_m3 / 1000.0),
            wall,
            speed_m_min: speed,
        }));
    }

    fn material_kind(&mut self, name: &ast::Name) -> Option<&'static material::Material> {
        let kind = material::named(&name.text);
        if kind.is_none() {
            let known = material::all().map(|kind| kind.kind());
            let near = quillet_syntax::nearest(&name.text, known);
            let finding = Finding::new(
                "unknown-name",
                Severity::Error,
                name.span,
                format!("{} is no kind of material that is built in", name.text),
            );
            self.say(offer(
                finding,
                name.span,
                near,
                "name one of the built-in kinds",
            ));
        }
        kind
    }

    fn speeds(&mut self, span: &ast::SumSpan, frame: &mut Frame<'a>) -> Option<(f64, f64)> {
        match &span.to {
            None => {
                let speed =
                    self.amount(&span.from, "a speed in m/min", Quantity::as_number, frame)?;
                Some((speed, speed))
            }
            Some(to) => {
                let (low, high) = self.range(&span.from, to, frame)?;
                Some((low.as_number()?, high.as_number()?))
            }
        }
    }

    fn thread_item(&mut self, item: &ast::ThreadItem, span: Span, frame: &mut Frame<'a>) {
        if let Some(thread) = self.thread_form(&item.form, frame) {
            self.design.threads.push(Arc::new(ThreadDef {
                name: Some(item.name.clone()),
                span,
                designation: item.form.designation.clone(),
                thread,
            }));
        }
    }

    /// A designation with its starts.
    fn thread_form(&mut self, form: &ast::Form, frame: &mut Frame<'a>) -> Option<ThreadForm> {
        let text = &form.designation.text;
        let thread: ThreadForm = match text.parse() {
            Ok(thread) => thread,
            Err(error) => {
                let error: quillet_standards::thread::DesignationError = error;
                let start = form.designation.span.start as usize;
                let at = Span::new(
                    form.designation.span.file,
                    start + error.at.start,
                    start + error.at.end.max(error.at.start + 1),
                );
                self.say(Finding::new(
                    "bad-designation",
                    Severity::Error,
                    at,
                    error.to_string(),
                ));
                return None;
            }
        };
        let Some(starts) = &form.starts else {
            return Some(thread);
        };
        let count = self.amount(starts, "a number of starts", Quantity::as_number, frame)?;
        let most = ThreadForm::MOST_STARTS;
        if count.fract() != 0.0 || count < 1.0 || count > f64::from(most) {
            self.say(
                Finding::new(
                    "out-of-range",
                    Severity::Error,
                    starts.span,
                    format!(
                        "{count} starts cannot be cut; a whole number from 1 to {most} is expected"
                    ),
                )
                .hint("three starts are usual for a cap"),
            );
            return None;
        }
        let count = count as u32;
        if thread.starts() > 1 && thread.starts() != count {
            self.say(
                Finding::new(
                    "out-of-range",
                    Severity::Error,
                    form.span,
                    format!(
                        "{text} already has {} starts by its lead and pitch; starts {count} says otherwise",
                        thread.starts()
                    ),
                )
                .hint("leave starts out, or write the pitch alone"),
            );
            return None;
        }
        Some(thread.with_starts(count))
    }

    /// A thread named or written in place.
    pub(super) fn thread(
        &mut self,
        thread: &ast::ThreadRef,
        frame: &mut Frame<'a>,
    ) -> Option<Arc<ThreadDef>> {
        match thread {
            ast::ThreadRef::Named(name) => self.thread_named(name, frame),
            ast::ThreadRef::Written(form) => {
                let thread = self.thread_form(form, frame)?;
                Some(Arc::new(ThreadDef {
                    name: None,
                    span: form.span,
                    designation: form.designation.clone(),
                    thread,
                }))
            }
        }
    }

    /// The thread of a name.
    pub(super) fn thread_named(
        &mut self,
        name: &ast::Name,
        frame: &Frame<'a>,
    ) -> Option<Arc<ThreadDef>> {
        let is_it = |it: &&Arc<ThreadDef>| {
            it.name
                .as_ref()
                .is_some_and(|known| known.text == name.text)
        };
        let found = self.design.threads.iter().find(is_it).cloned();
        self.refer_to(name, &[NameKind::Thread], frame);
        found
    }

    /// Stock of a material, round or square.
    pub(super) fn stock(&mut self, stock: &ast::Stock, frame: &mut Frame<'a>) -> Option<Stock> {
        let material = self.material(&stock.material, frame);
        let size = self.positive(&stock.size, "stock", frame);
        let length = stock
            .length
            .as_ref()
            .map(|sum| self.positive(sum, "a blank", frame));
        Some(Stock {
            span: stock.span,
            material: material?,
            section: stock.section,
            size: size?,
            length: length.flatten(),
        })
    }

    /// A threshold.
    pub(super) fn limit(&mut self, limit: &ast::Limit, frame: &mut Frame<'a>) -> Option<LimitLine> {
        let value = self.eval(&limit.value, frame)?;
        Some(LimitLine {
            rule: limit.rule.clone(),
            value,
            span: limit.span,
        })
    }

    /// Several thresholds.
    pub(super) fn limits<'l>(
        &mut self,
        limits: impl Iterator<Item = &'l ast::Limit>,
        frame: &mut Frame<'a>,
    ) -> Limits {
        Limits(
            limits
                .filter_map(|limit| self.limit(limit, frame))
                .collect(),
        )
    }

    /// An acceptance within a block.
    pub(super) fn acceptance(
        &mut self,
        accept: &ast::Accept,
        scope: Span,
        frame: &mut Frame<'a>,
    ) -> Acceptance {
        let at = accept.at.as_ref().and_then(|range| {
            let (a, b) = self.range(&range.from, &range.to, frame)?;
            Some((a.as_length()?, b.as_length()?))
        });
        Acceptance {
            rule: accept.rule.clone(),
            at,
            because: accept.because.clone(),
            span: accept.span,
            scope,
        }
    }

    /// Records that a definition is used at a place.
    pub(super) fn refer(&mut self, span: Span, definition: usize) {
        self.design
            .names
            .references
            .push(crate::Reference { span, definition });
    }

    /// Records a reference to an item of one of the wanted kinds, or says it is unknown.
    pub(super) fn refer_to(
        &mut self,
        name: &ast::Name,
        wanted: &[NameKind],
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
    pub(super) fn unknown(&mut self, name: &str, at: Span, wanted: &[NameKind], frame: &Frame<'a>) {
        let kind = wanted.first().map_or("name", |kind| kind.word());
        if let Some(entry) = self.scope.get(name) {
            let is = &self.design.names.definitions[entry.definition];
            let finding = Finding::new(
                "unknown-name",
                Severity::Error,
                at,
                format!(
                    "{name} is the name of a {}; a {kind} is expected here",
                    is.kind.word()
                ),
            );
            let finding = finding.label(is.span, "given its name here");
            self.say(finding);
            return;
        }
        let finding = Finding::new(
            "unknown-name",
            Severity::Error,
            at,
            format!("no {kind} is called {name}"),
        );
        let local = frame.local.iter().map(|it| &*it.name.text);
        let mut known: Vec<&str> = self.scope.names_of(wanted).chain(local).collect();
        if wanted.contains(&NameKind::Material) {
            known.extend(material::all().map(|kind| kind.kind()));
        }
        let finding = match minus(name, |word| known.contains(&word)) {
            Some(spaced) => finding.hint("minus stands between blanks").fix(
                format!("write {spaced}"),
                at,
                spaced,
            ),
            None => {
                let near = quillet_syntax::nearest(name, known).map(str::to_owned);
                offer(
                    finding,
                    at,
                    near.as_deref(),
                    &format!("see how the {kind} is spelt where it is defined"),
                )
            }
        };
        self.say(finding);
    }
}

/// Offers the nearest name as a cure, or else a hint.
pub(super) fn offer(finding: Finding, at: Span, near: Option<&str>, hint: &str) -> Finding {
    match near {
        Some(near) => {
            finding
                .hint(format!("did you mean {near}?"))
                .fix(format!("write {near}"), at, near)
        }
        None => finding.hint(hint),
    }
}

/// `shoulder-2` as `shoulder - 2`, where `shoulder` is known.
fn minus(name: &str, known: impl Fn(&str) -> bool) -> Option<String> {
    let (left, right) = name.rsplit_once('-')?;
    let number = right.chars().all(|c| c.is_ascii_digit() || c == '.') && !right.is_empty();
    (known(left) && (number || known(right))).then(|| format!("{left} - {right}"))
}

/// A length that is not there counts as none.
pub(super) fn or_zero(length: Option<Length>) -> Length {
    length.unwrap_or(Length::ZERO)
}
