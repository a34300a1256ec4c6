//! The size a tool is named by.

use super::Resolver;
use super::frame::Frame;
use crate::DrillName;
use quillet_geometry::Length;
use quillet_standards::drill;
use quillet_syntax::ast::{self, SizeKind};
use quillet_syntax::{Finding, Severity, Span};

impl<'a> Resolver<'a> {
    /// The diameter a tool's size comes to, and how it was named.
    pub(super) fn tool_size(
        &mut self,
        size: &ast::Size,
        frame: &mut Frame<'a>,
    ) -> Option<(Length, DrillName)> {
        match &size.kind {
            SizeKind::Sum(sum) => {
                let dia = self.positive(sum, "a hole", frame)?;
                Some((dia, DrillName::Diameter))
            }
            SizeKind::Gauge(number) => {
                let dia = drill::gauge(&format!("#{number}"));
                self.known_gauge(dia, size.span, "number drills run from #1 to #80")
                    .map(|dia| (dia, DrillName::Number(*number)))
            }
            SizeKind::Letter(letter) => {
                let dia = drill::gauge(&format!("letter {letter}"));
                self.known_gauge(dia, size.span, "letter drills run from A to Z")
                    .map(|dia| (dia, DrillName::Letter(*letter)))
            }
        }
    }

    fn known_gauge(&mut self, dia: Option<Length>, at: Span, expected: &str) -> Option<Length> {
        if dia.is_none() {
            let text = self.design.text(at).to_owned();
            self.emit(Finding::new(
                "out-of-range",
                Severity::Error,
                at,
                format!("there is no drill {text}; {expected}"),
            ));
        }
        dia
    }
}
