//! Walks over the tree: its nodes, the nodes at a place, the names with what they stand for.

pub use crate::grammar::statements::{NameKind, NameUse, Node, Role};

use crate::ast::File;

/// Visits every node of a file, each before what it holds, in the text's order.
pub fn walk<'t>(file: &'t File, visit: &mut impl FnMut(Node<'t>)) {
    for item in &file.items {
        walk_node(Node::Item(item), visit);
    }
}

/// The nodes at a byte offset, the outermost first. Between two neighbours it is the later one.
pub fn path_at(file: &File, offset: usize) -> Vec<Node<'_>> {
    let mut path = Vec::new();
    let mut next = file
        .items
        .iter()
        .rfind(|item| item.span.touches(offset))
        .map(Node::Item);
    while let Some(node) = next {
        path.push(node);
        next = None;
        node.each(&mut |child| {
            if child.span().touches(offset) {
                next = Some(child);
            }
        });
    }
    path
}

/// Every name of a file, in the text's order. Names that are missing are left out.
pub fn names(file: &File) -> Vec<NameUse<'_>> {
    let mut names = Vec::new();
    walk(file, &mut |node| match node {
        Node::Name(name) if !name.text.is_empty() => names.push(name),
        _ => {}
    });
    names
}

fn walk_node<'t>(node: Node<'t>, visit: &mut dyn FnMut(Node<'t>)) {
    visit(node);
    node.each(&mut |child| walk_node(child, visit));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{FileId, parse};

    const TEXT: &str = "\
let grip = min(a, -b) -- note
part cap from mouth to crown {
  blank of reed rod 18
  outside { at 6 from crown dia grip smooth as rim }
  from mouth { drill 8 to 3; thread closing inside to 7 }
}
pen heron like curlew {
  screw cap.mouth onto barrel.mouth with closing { seat cap.rim on barrel.tail }
}
";

    #[test]
    fn names_are_told_with_what_they_stand_for() {
        let tree = parse(FileId(0), TEXT).tree;
        let reported: Vec<_> = names(&tree)
            .iter()
            .map(|name| format!("{} {:?} {:?}", name.text, name.role, name.sort))
            .collect();
        insta::assert_snapshot!(reported.join("\n"));
    }

    #[test]
    fn names_come_in_the_order_of_the_text() {
        let tree = parse(FileId(0), include_str!("parse/tests/heron.quillet")).tree;
        let names = names(&tree);
        assert!(names.is_sorted_by_key(|name| name.span));
        assert!(names.len() > 60);
    }

    #[test]
    fn the_path_leads_to_the_innermost_node() {
        let tree = parse(FileId(0), TEXT).tree;
        let innermost = |text: &str| {
            let offset = TEXT.find(text).unwrap();
            let path = path_at(&tree, offset);
            let spans = path
                .windows(2)
                .all(|pair| pair[0].span().contains(pair[1].span()));
            assert!(spans, "{path:?}");
            path.last().map(|node| TEXT[node.span().range()].to_owned())
        };
        assert_eq!(innermost("b)").as_deref(), Some("b"));
        assert_eq!(innermost("grip smooth").as_deref(), Some("grip"));
        assert_eq!(innermost("smooth as").as_deref(), Some("smooth"));
        assert_eq!(innermost("7 }").as_deref(), Some("7"));
        assert_eq!(innermost("rim on").as_deref(), Some("rim"));
        assert_eq!(
            innermost("seat").as_deref(),
            Some("seat cap.rim on barrel.tail")
        );
        assert!(path_at(&tree, TEXT.find("note").unwrap()).is_empty());
    }
}
