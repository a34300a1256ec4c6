//! Threads, named by an item or written in place.

use super::Resolver;
use super::clash::out_of_range;
use super::frame::Frame;
use crate::{DefinitionKind, Quantity, ThreadDef};
use quillet_standards::thread::{DesignationError, ThreadForm};
use quillet_syntax::ast;
use quillet_syntax::{Finding, RuleId, Severity, Span};
use std::sync::Arc;

impl<'a> Resolver<'a> {
    pub(super) fn thread_item(
        &mut self,
        item: &ast::ThreadItem,
        span: Span,
        frame: &mut Frame<'a>,
    ) {
        // A thread of which half can be read is another thread.
        let form = self.thread_form(&item.form, frame);
        if let Some(thread) = form.filter(|_| self.is_sound(span)) {
            let thread = Arc::new(ThreadDef {
                name: Some(item.name.clone()),
                span,
                designation: item.form.designation.clone(),
                thread,
            });
            self.known
                .threads
                .insert(item.name.text.clone(), thread.clone());
            self.design.threads.push(thread);
        }
    }

    /// A designation with its starts.
    fn thread_form(&mut self, form: &ast::Form, frame: &mut Frame<'a>) -> Option<ThreadForm> {
        let thread = self.designated(form)?;
        let Some(starts) = &form.starts else {
            return Some(thread);
        };
        let count = self.starts(starts, frame)?;
        if thread.starts() > 1 && thread.starts() != count {
            let designated = form.designation.span;
            let (from, to) = (designated.range().end, starts.span.range().end);
            let after = Span::new(designated.file, from, to);
            self.emit(
                Finding::new(
                    "out-of-range",
                    Severity::Error,
                    form.span,
                    format!(
                        "{} already has {} starts by its lead and pitch; starts {count} says otherwise",
                        form.designation.text,
                        thread.starts()
                    ),
                )
                .hint("leave starts out, or write the pitch alone")
                .fix("leave starts out", after, ""),
            );
            return None;
        }
        Some(thread.with_starts(count))
    }

    /// The form that a designation says by itself.
    fn designated(&mut self, form: &ast::Form) -> Option<ThreadForm> {
        let text = &form.designation.text;
        match text.parse() {
            Ok(thread) => Some(thread),
            // What is not there is told of by the reader.
            Err(_) if text.trim().is_empty() => None,
            Err(error) => {
                let error: DesignationError = error;
                let start = form.designation.span.start as usize;
                let at = Span::new(
                    form.designation.span.file,
                    start + error.at.start,
                    start + error.at.end.max(error.at.start + 1),
                );
                self.emit(Finding::new(
                    RuleId::BAD_DESIGNATION,
                    Severity::Error,
                    at,
                    error.to_string(),
                ));
                None
            }
        }
    }

    /// A whole number of starts.
    fn starts(&mut self, starts: &ast::Expr, frame: &mut Frame<'a>) -> Option<u32> {
        let count = self.amount(starts, "a number of starts", Quantity::as_number, frame)?;
        let most = ThreadForm::MOST_STARTS;
        if count.fract() != 0.0 || count < 1.0 || count > f64::from(most) {
            let message = format!(
                "{count} starts cannot be cut; a whole number from 1 to {most} is expected"
            );
            let mut finding =
                out_of_range(starts.span, message).hint("three starts are usual for a cap");
            let mut near = [count.floor(), count.ceil()]
                .map(|it| it.clamp(1.0, f64::from(most)))
                .to_vec();
            near.dedup();
            for whole in near {
                let text = format!("{whole}");
                finding = finding.fix(format!("write {text}"), starts.span, text);
            }
            self.emit(finding);
            return None;
        }
        Some(count as u32)
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
        self.refer_to(name, &[DefinitionKind::Thread], frame);
        self.known.threads.get(&name.text).cloned()
    }
}
