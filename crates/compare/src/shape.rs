//! What a statement looks like once its numbers, its texts and its layout are taken off it.

use quillet_model::SourceFile;
use quillet_syntax::ast::ExprKind;
use quillet_syntax::visit::{Node, walk};
use quillet_syntax::{Span, TokenKind};

/// The shapes of one file's statements.
pub(crate) struct Shapes<'a> {
    file: &'a SourceFile,
    /// Each sum that lies in no other, in the text's order.
    sums: Vec<Span>,
}

impl<'a> Shapes<'a> {
    pub(crate) fn of(file: &'a SourceFile) -> Self {
        let (mut sums, mut want, mut end) = (Vec::new(), Span::default(), 0);
        walk(&file.parsed.tree, &mut |node| {
            let span = node.span();
            let measures = match node {
                Node::Want(_) => {
                    want = span;
                    return;
                }
                // What is wanted says which want it is.
                Node::Expr(sum) => matches!(sum.kind, ExprKind::Call { .. }),
                Node::Size(_) => false,
                _ => return,
            };
            if span.start < end {
                return;
            }
            end = span.end;
            if !measures || span.start >= want.end {
                sums.push(span);
            }
        });
        Self { file, sums }
    }

    /// The shape of what stands in a span, up to the block it has: every sum as `#`, every text as
    /// `""`, single blanks, no comments.
    pub(crate) fn of_head(&self, span: Span) -> String {
        let tokens = &self.file.parsed.tokens;
        let first = tokens.partition_point(|it| it.span.end <= span.start);
        let (mut shape, mut apart) = (String::new(), false);
        let mut sums = self.sums.iter().skip_while(|it| it.end <= span.start);
        let mut sum = sums.next();
        let inside = tokens[first..].iter();
        for token in inside.take_while(|it| it.span.start < span.end) {
            while sum.is_some_and(|it| it.end <= token.span.start) {
                sum = sums.next();
            }
            let in_sum = sum.is_some_and(|it| it.start <= token.span.start);
            let text = match token.kind {
                TokenKind::Open => break,
                TokenKind::Blank | TokenKind::Newline | TokenKind::Comment => {
                    apart = true;
                    continue;
                }
                _ if in_sum && sum.is_some_and(|it| it.start < token.span.start) => continue,
                _ if in_sum => "#",
                TokenKind::Quantity | TokenKind::Gauge | TokenKind::Thread | TokenKind::Fit => "#",
                TokenKind::String => "\"\"",
                _ => &self.file.text[token.span.range()],
            };
            if apart && !shape.is_empty() {
                shape.push(' ');
            }
            apart = false;
            shape.push_str(text);
        }
        shape
    }

    /// The words that name an item: `part cap`, `use "bought.quillet"`.
    pub(crate) fn name_of(&self, item: Span) -> String {
        let tokens = &self.file.parsed.tokens;
        let first = tokens.partition_point(|it| it.span.end <= item.start);
        let inside = tokens[first..]
            .iter()
            .take_while(|it| it.span.start < item.end);
        let words = inside.filter(|it| {
            let between = [TokenKind::Blank, TokenKind::Newline, TokenKind::Comment];
            !between.contains(&it.kind)
        });
        let words = words.take(2).map(|it| &self.file.text[it.span.range()]);
        words.collect::<Vec<_>>().join(" ")
    }
}
