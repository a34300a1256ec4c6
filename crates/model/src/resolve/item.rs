//! Items at file level: materials, threads, stock, benches, limits, `let`s.

use super::frame::Frame;
use super::name::{akin, offer};
use super::{Resolver, shared};
use crate::{Acceptance, BlankDef, LimitLine, Limits, Material, Quantity, Stock};
use quillet_standards::cast::{Mix, MixBy};
use quillet_standards::{Colour, material};
use quillet_syntax::ast::{self, ItemKind, MaterialLineKind};
use quillet_syntax::{Finding, RuleId, Severity, Span, text};
use std::sync::Arc;

impl<'a> Resolver<'a> {
    /// Resolves every item but parts and pens. Materials and threads come first, since
    /// order never matters.
    pub(super) fn file_items(&mut self, frame: &mut Frame<'a>) {
        let items = self.scope.items.clone();
        for item in &items {
            match &item.kind {
                ItemKind::Material(it) if self.is_anew(item, &it.name) => {
                    self.material_item(it, item.span, frame);
                }
                ItemKind::Thread(it) if self.is_anew(item, &it.name) => {
                    self.thread_item(it, item.span, frame);
                }
                _ => {}
            }
        }
        for item in &items {
            match &item.kind {
                ItemKind::Let(it) if self.is_anew(item, &it.name) => {
                    self.eval_value(&it.value, frame);
                }
                ItemKind::Blank(it) if self.is_anew(item, &it.name) => {
                    if let Some(stock) = self.stock(&it.stock, frame) {
                        let blank = Arc::new(BlankDef {
                            name: it.name.clone(),
                            span: item.span,
                            stock,
                            matched: it.matched,
                        });
                        self.known
                            .blanks
                            .insert(it.name.text.clone(), blank.clone());
                        self.design.blanks.push(blank);
                    }
                }
                ItemKind::Bench(it) if self.is_anew(item, &it.name) => {
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

    fn material_item(&mut self, item: &ast::Material, whole: Span, frame: &mut Frame<'a>) {
        let mut kind = None;
        let (mut density, mut wall, mut speed, mut colour) = (None, None, None, None);
        let (mut modulus, mut strain, mut mix, mut pigment) = (None, None, None, None);
        for line in &item.lines {
            match &line.kind {
                MaterialLineKind::Kind(name) => kind = self.material_kind(name),
                MaterialLineKind::Density(sum) => {
                    density = self.amount(sum, "a density in g/cm³", Quantity::as_number, frame);
                }
                MaterialLineKind::Wall(sum) => wall = self.positive(sum, "a wall", frame),
                MaterialLineKind::Speed(span) => speed = self.speeds(span, frame),
                MaterialLineKind::Colour(text) => colour = self.colour(text),
                MaterialLineKind::Modulus(sum) => {
                    modulus = self.amount(sum, "a number of GPa", Quantity::as_number, frame);
                }
                MaterialLineKind::Strain(sum) => {
                    strain = self.amount(sum, "a number of per cent", Quantity::as_number, frame);
                }
                MaterialLineKind::Mix { shares, by } => mix = self.mix(shares, *by, frame),
                MaterialLineKind::Pigment(sum) => {
                    pigment = self.pigment(sum, frame);
                }
                MaterialLineKind::Bad => {}
            }
        }
        let Some(kind) = kind else {
            return self.no_kind(item, whole);
        };
        let stated = density.filter(|it| *it > 0.0);
        let material = Arc::new(Material {
            name: shared(&item.name),
            title: item.title.clone(),
            span: Some(item.name.span),
            kind,
            density_g_cm3: stated.unwrap_or(kind.density().typical_kg_m3 / 1000.0),
            density_range_g_cm3: match stated {
                Some(_) => None,
                None => Some(crate::material::range_of(kind)),
            },
            wall,
            speed_m_min: speed,
            colour: colour.unwrap_or(kind.colour()),
            modulus_gpa: modulus
                .filter(|it| *it > 0.0)
                .or(kind.modulus_gpa().map(|(it, _)| it)),
            strain_percent: strain.or(kind.strain_percent().map(|(it, _)| it)),
            mix,
            pigment_percent: pigment,
        });
        self.known
            .materials
            .insert(material.name.clone(), material.clone());
        self.design.materials.push(material);
    }

    /// Tells of a material that says no kind, unless one could not be read.
    fn no_kind(&mut self, item: &ast::Material, whole: Span) {
        let is_kind = |it: &ast::MaterialLine| matches!(it.kind, MaterialLineKind::Kind(_));
        // What cannot be read may be the line.
        if self.is_sound(whole) && !item.lines.iter().any(is_kind) {
            self.emit(
                Finding::new(
                    "incomplete",
                    Severity::Error,
                    item.name.span,
                    format!("the material {} says no kind", item.name.text),
                )
                .hint("add a line such as: kind acrylic"),
            );
        }
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
            let others = "name one of the built-in kinds; quillet material lists them";
            let hint = akin(&name.text).unwrap_or_else(|| others.to_owned());
            self.emit(offer(finding, name.span, near, &hint));
        }
        kind
    }

    /// How two parts of a resin are mixed.
    fn mix(
        &mut self,
        shares: &[ast::Expr; 2],
        by: Option<MixBy>,
        frame: &mut Frame<'a>,
    ) -> Option<Mix> {
        let [first, second] = shares;
        let mut share = |sum| self.amount(sum, "a share", Quantity::as_number, frame);
        let (a, b) = (share(first), share(second));
        let mix = Mix::new(a?, b?, by?);
        if mix.is_none() {
            let at = first.span.to(second.span);
            let message = "both shares of a mix are more than 0";
            self.emit(
                Finding::new(RuleId::OUT_OF_RANGE, Severity::Error, at, message)
                    .hint("write them as the resin's own sheet has them, as 100:10"),
            );
        }
        mix
    }

    /// Pigment, in per cent.
    fn pigment(&mut self, sum: &ast::Expr, frame: &mut Frame<'a>) -> Option<f64> {
        let percent = self.amount(sum, "a number of per cent", Quantity::as_number, frame)?;
        if percent > MOST_PIGMENT {
            let message = format!("pigment of {percent} % of the mix is past {MOST_PIGMENT} %");
            self.emit(
                Finding::new(RuleId::OUT_OF_RANGE, Severity::Error, sum.span, message)
                    .hint("write the per cent of the mass that the resin's own sheet allows"),
            );
            return None;
        }
        Some(percent)
    }

    fn colour(&mut self, text: &ast::Text) -> Option<Colour> {
        let colour = Colour::read(&text.text);
        if colour.is_none() {
            self.emit(
                Finding::new(
                    RuleId::BAD_COLOUR,
                    Severity::Error,
                    text.span,
                    format!("{} is no colour that a picture can show", text.text),
                )
                .hint("a colour is written \"#6d8a34\": #, then red, green and blue from 00 to ff"),
            );
        }
        colour
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

    /// Stock of a material: round, square or a tube.
    pub(super) fn stock(&mut self, stock: &ast::Stock, frame: &mut Frame<'a>) -> Option<Stock> {
        let material = self.material(&stock.material, frame);
        let size = self.positive(&stock.size, "stock", frame);
        let size = size.filter(|it| self.is_a_pens(*it, THICKEST, stock.size.span));
        let length = stock
            .length
            .as_ref()
            .map(|sum| self.positive(sum, "a blank", frame));
        let wall = match &stock.wall {
            None => None,
            Some(sum) => {
                let wall = self.positive(sum, "a wall", frame)?;
                if wall * 2 >= size? {
                    let message = text!("a wall of {} leaves no bore in a tube of {}", wall, size?);
                    self.emit(
                        Finding::new(RuleId::OUT_OF_RANGE, Severity::Error, sum.span, message)
                            .hint("the wall is less than half the diameter, or write a rod"),
                    );
                    return None;
                }
                Some(wall)
            }
        };
        Some(Stock {
            span: stock.span,
            material: material?,
            section: stock.section,
            size: size?,
            wall,
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
}

/// More pigment than resin is no casting.
const MOST_PIGMENT: f64 = 100.0;
/// No stock for a pen is thicker.
const THICKEST: quillet_geometry::Length = quillet_geometry::Length::from_nm(150_000_000);
