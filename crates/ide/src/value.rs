//! What a named quantity comes to, as its file says it; a pen may say otherwise.

use quillet_model::{DefinitionId, Design, Quantity, Units};
use quillet_syntax::ast::{Arg, Expr, ExprKind};
use quillet_syntax::visit::{Node, walk};

/// Names within names that are followed; what goes round in a circle comes to nothing.
const DEEPEST: usize = 32;

/// What the `let` of a definition comes to; none where it names no quantity, or cannot be worked out.
pub(crate) fn value_of(design: &Design, index: DefinitionId) -> Option<Quantity> {
    of_let(design, index, 0)
}

fn of_let(design: &Design, index: DefinitionId, depth: usize) -> Option<Quantity> {
    let name = design.names.definitions.get(index)?.span;
    let file = design.file(name.file).filter(|_| depth < DEEPEST)?;
    let tree = &file.parsed.tree;
    let bare = file.units();
    let mut sum = None;
    walk(tree, &mut |node| {
        if let Node::Let(it) = node
            && it.name.span == name
        {
            sum = Some(&it.value);
        }
    });
    of_sum(design, sum?, bare, depth)
}

fn of_sum(design: &Design, sum: &Expr, bare: Units, depth: usize) -> Option<Quantity> {
    let of = |sum: &Expr| of_sum(design, sum, bare, depth);
    match &sum.kind {
        ExprKind::Quantity { value, unit } => Quantity::written(*value, *unit, bare),
        ExprKind::Name(_) => of_let(design, design.names.at(sum.span)?, depth + 1),
        ExprKind::Negate(inner) => of(inner).map(Quantity::negated),
        ExprKind::Group(inner) => of(inner),
        ExprKind::Binary(one, operator, other) => of(one)?.combine(*operator, of(other)?).ok(),
        ExprKind::Call { name, args } => {
            let values = args.iter().map(|arg| match arg {
                Arg::Sum(sum) => of(sum),
                Arg::Face(_) => None,
            });
            let least = match &*name.text {
                "min" => true,
                "max" => false,
                _ => return None,
            };
            let values: Option<Vec<Quantity>> = values.collect();
            values?.into_iter().reduce(|one, other| {
                let (a, b) = one.matched(other).unwrap_or((one, other));
                if (a.to_f64() < b.to_f64()) == least {
                    a
                } else {
                    b
                }
            })
        }
        ExprKind::Bad => None,
    }
}
