//! Joints resolved to ends.

use super::Resolver;
use super::frame::Frame;
use super::name::offer;
use crate::{FitRequest, Joint, JointEnd, Limits, Part, PartId, Pen, PenFace, Seat};
use quillet_syntax::ast::{self, Direction, JointLineKind, JointOptionKind, Verb};
use quillet_syntax::{Finding, RuleId, Severity, Span};

impl<'a> Resolver<'a> {
    pub(super) fn joint(
        &mut self,
        ast: &'a ast::Joint,
        span: Span,
        pen: &mut Pen,
        frame: &mut Frame<'a>,
    ) -> Option<Joint> {
        let first = self.joint_end(&ast.first, pen, frame);
        let second = self.joint_end(&ast.second, pen, frame);
        let (first, second) = (first?, second?);
        let (male, female) = match ast.direction {
            Direction::Into => (first, second),
            Direction::Onto => (second, first),
        };
        if male.part == female.part {
            self.emit(
                Finding::new(
                    "joined-twice",
                    Severity::Error,
                    ast.first.span.to(ast.second.span),
                    format!("{} is joined to itself", pen.parts[male.part].name.text),
                )
                .hint("a second piece of one item is a like: part other like this"),
            );
            return None;
        }
        let head_end = ast
            .options
            .last()
            .map_or(ast.second.span, |option| option.span);
        let mut joint = Joint {
            span,
            head: ast.verb_span.to(head_end),
            verb: ast.verb,
            male,
            female,
            with: None,
            through: Vec::new(),
            by: None,
            asks: None,
            snap: None,
            before_turning: None,
            seat: None,
            flush: None,
            wants: Vec::new(),
            accepts: Vec::new(),
            limits: Limits::default(),
        };
        for option in &ast.options {
            self.joint_option(option, &mut joint, pen, frame);
        }
        let scope = ast.block.unwrap_or(span);
        for line in &ast.lines {
            self.joint_line(line, scope, &mut joint, pen, frame);
        }
        Some(joint)
    }

    /// A line of a joint's block, whose whole is `scope`.
    fn joint_line(
        &mut self,
        line: &'a ast::JointLine,
        scope: Span,
        joint: &mut Joint,
        pen: &mut Pen,
        frame: &mut Frame<'a>,
    ) {
        match &line.kind {
            JointLineKind::Seat { first, second } => {
                let first = self.pen_face(first, pen, frame);
                let second = self.pen_face(second, pen, frame);
                joint.seat = first.zip(second).map(|(first, second)| Seat {
                    span: line.span,
                    first,
                    second,
                });
            }
            JointLineKind::Flush => joint.flush = Some(line.span),
            // Wants are resolved when the whole pen is known.
            JointLineKind::Want(_) => {}
            JointLineKind::Accept(accept) => {
                joint.accepts.push(self.acceptance(accept, scope, frame));
            }
            JointLineKind::Limit(limit) => {
                joint.limits.0.extend(self.limit(limit, frame));
            }
            JointLineKind::Bad => {}
        }
    }

    fn joint_option(
        &mut self,
        option: &ast::JointOption,
        joint: &mut Joint,
        pen: &mut Pen,
        frame: &mut Frame<'a>,
    ) {
        match &option.kind {
            JointOptionKind::With(name) => joint.with = self.thread_named(name, frame),
            JointOptionKind::Through(names) => {
                for name in names {
                    joint.through.extend(self.pen_part(name, pen, frame));
                }
            }
            JointOptionKind::By(sum) => {
                joint.by = self
                    .positive(sum, "an overlap", frame)
                    .map(|by| (by, sum.span));
            }
            JointOptionKind::Fit(text) => match text.text.parse() {
                Ok(fit) => joint.asks = Some((FitRequest::Fit(fit), option.span)),
                Err(error) => {
                    let error: quillet_standards::fit::FitError = error;
                    self.emit(Finding::new(
                        RuleId::BAD_DESIGNATION,
                        Severity::Error,
                        text.span,
                        error.to_string(),
                    ));
                }
            },
            JointOptionKind::Clearance(sum) => {
                let size = self.distance(sum, "a clearance", frame);
                joint.asks = size.map(|size| (FitRequest::Clearance(size), option.span));
            }
            JointOptionKind::Interference(sum) => {
                let size = self.distance(sum, "an interference", frame);
                joint.asks = size.map(|size| (FitRequest::Interference(size), option.span));
            }
            JointOptionKind::Gap(sum) => {
                let size = self.distance(sum, "a gap", frame);
                joint.asks = size.map(|size| (FitRequest::Gap(size), option.span));
            }
            JointOptionKind::Snap(sum) => {
                let overlap = self.positive(sum, "a snap", frame);
                if self.goes_with(option, joint, &[Verb::Close, Verb::Post]) {
                    joint.snap = overlap.map(|overlap| (overlap, option.span));
                }
            }
            JointOptionKind::BeforeTurning => {
                if self.goes_with(option, joint, &[Verb::Glue, Verb::Press]) {
                    joint.before_turning = Some(option.span);
                }
            }
        }
    }

    /// Whether an option belongs to a joint's verb; where not, it is told where it belongs.
    fn goes_with(&mut self, option: &ast::JointOption, joint: &Joint, verbs: &[Verb]) -> bool {
        let goes = verbs.contains(&joint.verb);
        if !goes {
            let words: Vec<&str> = verbs.iter().map(|verb| verb.word()).collect();
            let said = self.design.text(option.span).to_owned();
            let finding = Finding::new(
                RuleId::SYNTAX,
                Severity::Error,
                option.span,
                format!("{said} has no meaning behind {}", joint.verb.word()),
            );
            self.emit(finding.hint(format!("it belongs to {}", words.join(" or "))));
        }
        goes
    }

    fn joint_end(
        &mut self,
        face: &ast::Face,
        pen: &mut Pen,
        frame: &mut Frame<'a>,
    ) -> Option<JointEnd> {
        let part = self.pen_part(&face.part, pen, frame)?;
        let seen = pen.parts[part].clone();
        let end = self.part_end(&seen, &face.face)?;
        Some(JointEnd {
            part,
            end,
            span: face.span,
        })
    }

    fn pen_face(
        &mut self,
        face: &ast::Face,
        pen: &mut Pen,
        frame: &mut Frame<'a>,
    ) -> Option<PenFace> {
        let index = self.pen_part(&face.part, pen, frame)?;
        let part = pen.parts[index].clone();
        self.face_of(index, &part, face)
    }

    /// A face of a part that is the pen's part `index`.
    pub(super) fn face_of(
        &mut self,
        index: PartId,
        part: &Part,
        face: &ast::Face,
    ) -> Option<PenFace> {
        let Some(found) = part.face(&face.face.text) else {
            self.unknown_face(part, &face.face);
            return None;
        };
        let (at, end) = (found.at, found.end);
        self.refer_face(part, &face.face);
        Some(PenFace {
            part: index,
            face: face.face.clone(),
            at,
            end,
            span: face.span,
        })
    }

    fn unknown_face(&mut self, part: &Part, name: &ast::Name) {
        // That it is missing has been told where the text was read; or it may stand where the part
        // could not be read.
        if name.text.is_empty() || !part.whole {
            self.lost += 1;
            return;
        }
        let known: Vec<&str> = part.faces.iter().map(|face| &*face.name.text).collect();
        let finding = Finding::new(
            "unknown-name",
            Severity::Error,
            name.span,
            format!("{} has no face called {}", part.name.text, name.text),
        )
        .label(
            part.name.span,
            format!("its faces are {}", known.join(", ")),
        );
        let near = quillet_syntax::nearest(&name.text, known);
        self.emit(offer(
            finding,
            name.span,
            near,
            "name a face with as, at its station or cut",
        ));
    }
}
