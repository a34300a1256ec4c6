//! Measures asked for by name: what a pen comes to with its numbers set so.

use crate::Probe;
use quillet_check::{CheckReport, JudgedWant};
use quillet_model::{Design, Quantity};
use quillet_syntax::ast::ItemKind;
use quillet_syntax::{Edit, Finding, Severity, Span, moved};

/// Measures of one pen, each by what is written after `want`: `mass(uncapped)`.
#[derive(Clone, Debug)]
pub struct Measures {
    pen: String,
    asked: Vec<String>,
    /// What asks for those that the pen itself does not want, put before its last brace.
    asking: Option<Edit>,
}

impl Measures {
    /// Measures of a pen that the file itself holds, or of one that was made of a pen drawn elsewhere.
    ///
    /// # Errors
    ///
    /// A sentence, where the file has no such pen, or a measure cannot be read or is not known.
    pub fn of(probe: &Probe<'_>, pen: &str, asked: &[String]) -> Result<Self, String> {
        let block = block(probe.design(), pen);
        let wanted: Vec<&str> = probe
            .drawn()
            .wants_of_pen(pen)
            .map(|it| it.asked.as_str())
            .collect();
        let lines: String = asked
            .iter()
            .filter(|it| !wanted.contains(&it.as_str()))
            .map(|it| format!("\nwant {it} >= 0"))
            .collect();
        let mut measures = Measures {
            pen: pen.to_owned(),
            asked: asked.to_vec(),
            asking: None,
        };
        if lines.is_empty() {
            return Ok(measures);
        }
        let block =
            block.ok_or_else(|| format!("pen {pen} has no block in this file to ask in"))?;
        let end = block.range().end.saturating_sub(1);
        let edit = Edit::new(Span::new(block.file, end, end), format!("{lines}\n"));
        measures.asking = Some(edit);
        measures.known(probe)?;
        Ok(measures)
    }

    /// What was asked for, in order.
    pub fn asked(&self) -> &[String] {
        &self.asked
    }

    /// The values, in the order asked; none where something that one rests on is missing; and what else
    /// is found, from notes up.
    pub fn at(&self, probe: &Probe<'_>, settings: &[Edit]) -> Option<Values> {
        let mut edits = settings.to_vec();
        edits.extend(self.asking.clone());
        let (design, examined) = probe.with(&edits)?;
        let asking = self.asking.as_ref().map(|it| moved_to(it, settings));
        let of_design = |it: &&Finding| asking.is_none_or(|asking| !asking.contains(it.span));
        let (findings, _): (Vec<&Finding>, Vec<_>) = examined.findings.iter().partition(of_design);
        Some(Values {
            measured: self
                .asked
                .iter()
                .map(|it| self.value(&examined, it))
                .collect(),
            findings: findings.into_iter().cloned().collect(),
            design,
        })
    }

    fn value(&self, examined: &CheckReport, asked: &str) -> Option<Quantity> {
        let mut wants = examined.wants_of_pen(&self.pen);
        let found: Option<&JudgedWant> = wants.find(|it| it.asked == asked && it.part.is_none());
        found?.measured.value
    }

    /// Refuses what cannot be read, with what is said of it.
    fn known(&self, probe: &Probe<'_>) -> Result<(), String> {
        let Some(asking) = &self.asking else {
            return Ok(());
        };
        let (_, examined) = probe.with(std::slice::from_ref(asking)).ok_or("")?;
        let put = moved_to(asking, &[]);
        let wrong = examined.findings.iter().find(|it| {
            it.severity == Severity::Error
                && put.contains(it.span)
                && it.rule != quillet_syntax::RuleId::WANT_UNMET
        });
        match wrong {
            Some(finding) => Err(finding.message.to_string()),
            None => Ok(()),
        }
    }
}

/// The block in which a pen says what it wants; of one that was made, that of the pen it is one of.
fn block(design: &Design, pen: &str) -> Option<Span> {
    let made = design.pen(pen).and_then(|it| it.made.as_deref());
    let drawn = made.and_then(|it| design.pen(&it.of.text));
    let (file, name) = match drawn {
        Some(drawn) => (design.file(drawn.span.file), &*drawn.name.text),
        None => (design.root(), pen),
    };
    let mut items = file.into_iter().flat_map(|it| &it.parsed.tree.items);
    items.find_map(|it| match &it.kind {
        ItemKind::Pen(found) if *found.name.text == *name => found.block,
        _ => None,
    })
}

/// What was measured and found with numbers set so.
#[derive(Debug)]
pub struct Values {
    /// What each measure comes to.
    pub measured: Vec<Option<Quantity>>,
    /// What is found.
    pub findings: Vec<Finding>,
    /// The design they are of.
    pub design: Design,
}

/// Where what an edit puts lies once it and others before it are made.
fn moved_to(edit: &Edit, others: &[Edit]) -> Span {
    let place = moved(edit.span, others);
    let start = place.range().start;
    Span::new(place.file, start, start + edit.text.len())
}
