//! The names a want uses; what it measures is worked out when the pen is assembled.

use super::Resolver;
use super::frame::Frame;
use crate::NameKind;
use quillet_syntax::ast::{self, Arg, Expr, ExprKind, Test};

impl<'a> Resolver<'a> {
    /// Records the parts, faces and `let`s that a want names.
    pub(super) fn refer_want(&mut self, want: &ast::Want, frame: &Frame<'a>) {
        self.refer_names(&want.measure, frame);
        match &want.test {
            Test::Compare(_, sum) => self.refer_names(sum, frame),
            Test::About { value, tolerance } => {
                self.refer_names(value, frame);
                self.refer_names(tolerance, frame);
            }
            Test::Within(range) => {
                self.refer_names(&range.from, frame);
                self.refer_names(&range.to, frame);
            }
        }
    }

    fn refer_names(&mut self, expr: &Expr, frame: &Frame<'a>) {
        match &expr.kind {
            ExprKind::Group(inner) | ExprKind::Negate(inner) => self.refer_names(inner, frame),
            ExprKind::Binary(a, _, b) => {
                self.refer_names(a, frame);
                self.refer_names(b, frame);
            }
            ExprKind::Call { name, args } => {
                for arg in args {
                    match arg {
                        Arg::Face(face) => self.refer_face_of(face, frame),
                        Arg::Sum(Expr {
                            kind: ExprKind::Name(_),
                            ..
                        }) if CONFIGURED.contains(&&*name.text) => {}
                        Arg::Sum(sum) => self.refer_names(sum, frame),
                    }
                }
            }
            ExprKind::Name(text) => {
                if let Some(entry) = self.scope.get(text) {
                    self.refer(expr.span, entry.definition);
                }
            }
            ExprKind::Quantity { .. } | ExprKind::Bad => {}
        }
    }

    fn refer_face_of(&mut self, face: &ast::Face, frame: &Frame<'a>) {
        if self.refer_to(&face.part, &[NameKind::Part, NameKind::Bought], frame)
            && let Some(part) = self.known.parts.get(&face.part.text).cloned()
        {
            self.refer_face(&part, &face.face);
        }
    }
}

/// Measures whose argument is a configuration, not a name of the maker's.
const CONFIGURED: [&str; 3] = ["length", "mass", "balance"];
