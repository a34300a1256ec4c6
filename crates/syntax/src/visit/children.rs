//! What each node holds, in the text's order.

use super::{NameUse, Node, Role, Sort};
use crate::ast::*;

type Visit<'v, 't> = &'v mut dyn FnMut(Node<'t>);

/// Visits what a node holds.
pub(super) fn each<'t>(node: Node<'t>, visit: Visit<'_, 't>) {
    match node {
        Node::Item(item) => each_of_item(item, visit),
        Node::Let(node) => {
            defines(Sort::Quantity, &node.name, visit);
            visit(Node::Expr(&node.value));
        }
        Node::Limit(node) => {
            refers(Sort::Rule, &node.rule, visit);
            visit(Node::Expr(&node.value));
        }
        Node::Accept(node) => {
            refers(Sort::Rule, &node.rule, visit);
            some(&node.at, Node::Range, visit);
            visit(Node::Text(&node.because));
        }
        Node::Want(node) => each_of_want(node, visit),
        Node::MaterialLine(line) => match &line.kind {
            MaterialLineKind::Kind(kind) => refers(Sort::Kind, kind, visit),
            MaterialLineKind::Density(sum) | MaterialLineKind::Wall(sum) => visit(Node::Expr(sum)),
            MaterialLineKind::Speed(speed) => each_of_span(speed, visit),
            MaterialLineKind::Bad => {}
        },
        Node::Form(form) => {
            visit(Node::Text(&form.designation));
            some(&form.starts, Node::Expr, visit);
        }
        Node::Stock(stock) => {
            refers(Sort::Material, &stock.material, visit);
            visit(Node::Expr(&stock.size));
            some(&stock.length, Node::Expr, visit);
        }
        Node::Line(line) => each_of_line(line, visit),
        Node::Spigot(spigot) => {
            visit(Node::Expr(&spigot.dia));
            visit(Node::Expr(&spigot.length));
            some(&spigot.gap, Node::Expr, visit);
        }
        Node::Station(station) => {
            if let Some(said) = &station.said {
                each_of_station(said, visit);
            }
        }
        Node::Shape(shape) => match &shape.kind {
            ShapeKind::Bead(radius) | ShapeKind::Cove(radius) => visit(Node::Expr(radius)),
            ShapeKind::Smooth | ShapeKind::Dome => {}
        },
        Node::Edge(edge) => visit(Node::Expr(&edge.size)),
        Node::Feature(feature) => {
            each_of_feature(&feature.kind, visit);
            if let Some(face) = &feature.face {
                defines(Sort::Face, face, visit);
            }
        }
        Node::Reach(reach) => {
            match &reach.kind {
                ReachKind::For(length) | ReachKind::To(length) => visit(Node::Expr(length)),
                ReachKind::Through => {}
            }
            some(&reach.at, Node::Expr, visit);
        }
        Node::Size(size) => {
            if let SizeKind::Sum(sum) = &size.kind {
                visit(Node::Expr(sum));
            }
        }
        Node::PenLine(line) => each_of_pen_line(line, visit),
        Node::Joint(joint) => {
            visit(Node::Face(&joint.first));
            visit(Node::Face(&joint.second));
            all(&joint.options, Node::JointOption, visit);
            all(&joint.lines, Node::JointLine, visit);
        }
        Node::JointOption(option) => each_of_option(option, visit),
        Node::JointLine(line) => each_of_joint_line(line, visit),
        Node::Face(face) => {
            refers(Sort::Part, &face.part, visit);
            refers(Sort::Face, &face.face, visit);
        }
        Node::ToolLine(line) => each_of_tool_line(line, visit),
        Node::Run(run) => {
            visit(Node::Size(&run.from));
            some(&run.to, Node::Size, visit);
            some(&run.step, Node::Expr, visit);
        }
        Node::Range(range) => {
            visit(Node::Expr(&range.from));
            visit(Node::Expr(&range.to));
        }
        Node::Expr(expr) => each_of_expr(expr, visit),
        Node::Name(_) | Node::Text(_) => {}
    }
}

fn each_of_item<'t>(item: &'t Item, visit: Visit<'_, 't>) {
    match &item.kind {
        ItemKind::Use(path) => visit(Node::Text(path)),
        ItemKind::Let(node) => visit(Node::Let(node)),
        ItemKind::Limit(node) => visit(Node::Limit(node)),
        ItemKind::Material(material) => {
            defines(Sort::Material, &material.name, visit);
            some(&material.title, Node::Text, visit);
            all(&material.lines, Node::MaterialLine, visit);
        }
        ItemKind::Thread(thread) => {
            defines(Sort::Thread, &thread.name, visit);
            visit(Node::Form(&thread.form));
        }
        ItemKind::Blank(blank) => {
            defines(Sort::Blank, &blank.name, visit);
            visit(Node::Stock(&blank.stock));
        }
        ItemKind::Part(part) | ItemKind::Bought(part) => {
            defines(Sort::Part, &part.name, visit);
            some(&part.title, Node::Text, visit);
            for end in part.ends.iter().flatten() {
                defines(Sort::End, end, visit);
            }
            if let Some(like) = &part.like {
                refers(Sort::Part, like, visit);
            }
            all(&part.lines, Node::Line, visit);
        }
        ItemKind::Bench(bench) => {
            defines(Sort::Bench, &bench.name, visit);
            some(&bench.title, Node::Text, visit);
            all(&bench.tools, Node::ToolLine, visit);
        }
        ItemKind::Pen(pen) => {
            defines(Sort::Pen, &pen.name, visit);
            some(&pen.title, Node::Text, visit);
            if let Some(like) = &pen.like {
                refers(Sort::Pen, like, visit);
            }
            all(&pen.lines, Node::PenLine, visit);
        }
        ItemKind::Bad => {}
    }
}

fn each_of_line<'t>(line: &'t Line, visit: Visit<'_, 't>) {
    match &line.kind {
        LineKind::Let(node) => visit(Node::Let(node)),
        LineKind::Limit(node) => visit(Node::Limit(node)),
        LineKind::Want(node) => visit(Node::Want(node)),
        LineKind::Accept(node) => visit(Node::Accept(node)),
        LineKind::Bench(bench) => refers(Sort::Bench, bench, visit),
        LineKind::BlankNamed(blank) => refers(Sort::Blank, blank, visit),
        LineKind::Blank(piece) => {
            visit(Node::Stock(&piece.stock));
            some(&piece.to, Node::Expr, visit);
            some(&piece.spigot, Node::Spigot, visit);
        }
        LineKind::Length(length) => each_of_span(length, visit),
        LineKind::Outside(stations) => all(stations, Node::Station, visit),
        LineKind::From { end, features } => {
            refers(Sort::End, end, visit);
            all(features, Node::Feature, visit);
        }
        LineKind::Mass { mass, at } => {
            visit(Node::Expr(mass));
            some(at, Node::Expr, visit);
        }
        LineKind::Ring { inside, cord } => {
            visit(Node::Expr(inside));
            visit(Node::Expr(cord));
        }
        LineKind::OutsideDia(sum) | LineKind::Holds(sum) | LineKind::Arm(sum) => {
            visit(Node::Expr(sum));
        }
        LineKind::Bad => {}
    }
}

fn each_of_station<'t>(said: &'t StationSaid, visit: Visit<'_, 't>) {
    visit(Node::Expr(&said.at));
    if let Some(end) = &said.from {
        refers(Sort::End, end, visit);
    }
    visit(Node::Expr(&said.dia));
    some(&said.shape, Node::Shape, visit);
    some(&said.step, Node::Expr, visit);
    some(&said.edge, Node::Edge, visit);
    if let Some(face) = &said.face {
        defines(Sort::Face, face, visit);
    }
}

fn each_of_feature<'t>(kind: &'t FeatureKind, visit: Visit<'_, 't>) {
    match kind {
        FeatureKind::Tenon { dia, length } => {
            some(dia, Node::Expr, visit);
            visit(Node::Expr(length));
        }
        FeatureKind::Drill { size, reach, point } => {
            visit(Node::Size(size));
            visit(Node::Reach(reach));
            some(point, Node::Expr, visit);
        }
        FeatureKind::Bore { size, reach } | FeatureKind::Ream { size, reach } => {
            visit(Node::Size(size));
            visit(Node::Reach(reach));
        }
        FeatureKind::Thread {
            thread,
            reach,
            clock,
            ..
        } => {
            each_of_thread(thread, visit);
            visit(Node::Reach(reach));
            some(clock, Node::Expr, visit);
        }
        FeatureKind::Relief { dia, reach } => {
            visit(Node::Expr(dia));
            visit(Node::Reach(reach));
        }
        FeatureKind::Groove { dia, reach, takes } | FeatureKind::Recess { dia, reach, takes } => {
            visit(Node::Expr(dia));
            visit(Node::Reach(reach));
            if let Some(takes) = takes {
                refers(Sort::Part, takes, visit);
            }
        }
        FeatureKind::Taper { from, to, reach } => {
            visit(Node::Expr(from));
            visit(Node::Expr(to));
            visit(Node::Reach(reach));
        }
        FeatureKind::Countersink { dia, angle } => {
            visit(Node::Expr(dia));
            some(angle, Node::Expr, visit);
        }
        FeatureKind::Edge(edge) => visit(Node::Edge(edge)),
        FeatureKind::Accept(accept) => visit(Node::Accept(accept)),
        FeatureKind::Bad => {}
    }
}

fn each_of_pen_line<'t>(line: &'t PenLine, visit: Visit<'_, 't>) {
    match &line.kind {
        PenLineKind::Joint(joint) => visit(Node::Joint(joint)),
        PenLineKind::Want(want) => visit(Node::Want(want)),
        PenLineKind::Accept(accept) => visit(Node::Accept(accept)),
        PenLineKind::Let(node) => visit(Node::Let(node)),
        PenLineKind::Limit(limit) => visit(Node::Limit(limit)),
        PenLineKind::Bench(bench) => refers(Sort::Bench, bench, visit),
        PenLineKind::Fill(part) => refers(Sort::Part, part, visit),
        PenLineKind::Bad => {}
    }
}

fn each_of_option<'t>(option: &'t JointOption, visit: Visit<'_, 't>) {
    match &option.kind {
        JointOptionKind::With(thread) => refers(Sort::Thread, thread, visit),
        JointOptionKind::Through(parts) => {
            for part in parts {
                refers(Sort::Part, part, visit);
            }
        }
        JointOptionKind::Fit(fit) => visit(Node::Text(fit)),
        JointOptionKind::By(sum)
        | JointOptionKind::Clearance(sum)
        | JointOptionKind::Interference(sum)
        | JointOptionKind::Gap(sum) => visit(Node::Expr(sum)),
    }
}

fn each_of_joint_line<'t>(line: &'t JointLine, visit: Visit<'_, 't>) {
    match &line.kind {
        JointLineKind::Seat { first, second } => {
            visit(Node::Face(first));
            visit(Node::Face(second));
        }
        JointLineKind::Want(want) => visit(Node::Want(want)),
        JointLineKind::Accept(accept) => visit(Node::Accept(accept)),
        JointLineKind::Limit(limit) => visit(Node::Limit(limit)),
        JointLineKind::Flush | JointLineKind::Bad => {}
    }
}

fn each_of_want<'t>(want: &'t Want, visit: Visit<'_, 't>) {
    visit(Node::Expr(&want.measure));
    match &want.test {
        Test::Compare(_, value) => visit(Node::Expr(value)),
        Test::About { value, tolerance } => {
            visit(Node::Expr(value));
            visit(Node::Expr(tolerance));
        }
        Test::Within(range) => visit(Node::Range(range)),
    }
}

fn each_of_tool_line<'t>(line: &'t ToolLine, visit: Visit<'_, 't>) {
    match &line.kind {
        ToolLineKind::Sizes {
            runs, reach, pilot, ..
        } => {
            all(runs, Node::Run, visit);
            some(reach, Node::Expr, visit);
            some(pilot, Node::Expr, visit);
        }
        ToolLineKind::Threads { forms, lead, .. } => {
            for form in forms {
                each_of_thread(form, visit);
            }
            if let Some(Lead::Length(length)) = lead {
                visit(Node::Expr(length));
            }
        }
        ToolLineKind::Saw { kerf: sum }
        | ToolLineKind::Keeps { within: sum, .. }
        | ToolLineKind::Caliper { within: sum } => visit(Node::Expr(sum)),
        ToolLineKind::Lathe { speeds, options } => {
            for speed in speeds {
                visit(Node::Expr(&speed.from));
                some(&speed.to, Node::Expr, visit);
            }
            for option in options {
                match &option.kind {
                    LatheOptionKind::Bore(length)
                    | LatheOptionKind::Centres(length)
                    | LatheOptionKind::Travel(length) => visit(Node::Expr(length)),
                    LatheOptionKind::Screwcutting => {}
                }
            }
        }
        ToolLineKind::Limit(limit) => visit(Node::Limit(limit)),
        ToolLineKind::Bad => {}
    }
}

fn each_of_expr<'t>(expr: &'t Expr, visit: Visit<'_, 't>) {
    match &expr.kind {
        ExprKind::Name(text) => visit(Node::Name(NameUse {
            text,
            span: expr.span,
            role: Role::Refers,
            sort: Sort::Quantity,
        })),
        ExprKind::Negate(inner) | ExprKind::Group(inner) => visit(Node::Expr(inner)),
        ExprKind::Binary(left, _, right) => {
            visit(Node::Expr(left));
            visit(Node::Expr(right));
        }
        ExprKind::Call { name, args } => {
            refers(Sort::Function, name, visit);
            for arg in args {
                visit(match arg {
                    Arg::Sum(sum) => Node::Expr(sum),
                    Arg::Face(face) => Node::Face(face),
                });
            }
        }
        ExprKind::Quantity { .. } | ExprKind::Bad => {}
    }
}

fn each_of_span<'t>(span: &'t SumSpan, visit: Visit<'_, 't>) {
    visit(Node::Expr(&span.from));
    some(&span.to, Node::Expr, visit);
}

fn each_of_thread<'t>(thread: &'t ThreadRef, visit: Visit<'_, 't>) {
    match thread {
        ThreadRef::Named(name) => refers(Sort::Thread, name, visit),
        ThreadRef::Written(form) => visit(Node::Form(form)),
    }
}

fn some<'t, T>(node: &'t Option<T>, of: impl Fn(&'t T) -> Node<'t>, visit: Visit<'_, 't>) {
    if let Some(node) = node {
        visit(of(node));
    }
}

fn all<'t, T>(nodes: &'t [T], of: impl Fn(&'t T) -> Node<'t>, visit: Visit<'_, 't>) {
    for node in nodes {
        visit(of(node));
    }
}

fn defines<'t>(sort: Sort, name: &'t Name, visit: Visit<'_, 't>) {
    named(Role::Defines, sort, name, visit);
}

fn refers<'t>(sort: Sort, name: &'t Name, visit: Visit<'_, 't>) {
    named(Role::Refers, sort, name, visit);
}

fn named<'t>(role: Role, sort: Sort, name: &'t Name, visit: Visit<'_, 't>) {
    visit(Node::Name(NameUse {
        text: &name.text,
        span: name.span,
        role,
        sort,
    }));
}
