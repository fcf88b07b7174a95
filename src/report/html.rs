//! A document as one HTML page that needs nothing else: for a screen of any width, by day and night, and for paper.

use super::document::{Bar, Block, Cell, Document, Holds, Item, Role, Table, Text};
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// How the page looks.
const STYLE: &str = include_str!("html.css");

/// A document as a page.
pub fn render(document: &Document) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (document.title()) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                main { @for block in document.blocks() { (self::block(block)) "\n" } }
            }
        }
    };
    page.into_string() + "\n"
}

fn block(block: &Block) -> Markup {
    html! {
        @match block {
            Block::Title(text) => h1 { (words(text)) },
            Block::Heading(text) => h2 { (words(text)) },
            Block::Paragraph(text) => p { (words(text)) },
            Block::List(items) => ul { @for entry in items { (item(entry)) } },
            Block::Facts(facts) => dl {
                @for (label, value) in facts { div { dt { (words(label)) } dd { (words(value)) } } }
            },
            Block::Table(table) => (self::table(table)),
            Block::Figure { picture: Some(picture), .. } | Block::Picture(picture) => figure {
                figcaption { (words(&picture.caption)) }
                p.scrolls { "Wider than the screen: it scrolls sideways." }
                div.wide tabindex="0" { (PreEscaped(&picture.svg)) }
            },
            Block::Figure { caption, drawing, .. } => figure {
                @if !caption.is_empty() { figcaption { (words(caption)) } }
                pre { (drawing.join("\n")) }
            },
            Block::Code(lines) => pre { code { (lines.join("\n")) } },
        }
    }
}

fn item(item: &Item) -> Markup {
    html! {
        li {
            (words(&item.text))
            @if !item.below.is_empty() { ul { @for text in &item.below { li { (words(text)) } } } }
        }
    }
}

fn table(table: &Table) -> Markup {
    let has_headings = table.columns.iter().any(|column| !column.heading.is_empty());
    html! {
        div.wide {
            table {
                @if has_headings {
                    thead { tr {
                        @for column in &table.columns { th.number[is_number(column.holds)] { (words(&column.heading)) } }
                    } }
                }
                tbody {
                    @for row in &table.rows { "\n" tr {
                        @for (cell, column) in row.iter().zip(&table.columns) { (self::cell(cell, column.holds)) }
                    } }
                }
            }
        }
    }
}

fn is_number(holds: Holds) -> bool {
    holds == Holds::Numbers
}

fn cell(cell: &Cell, holds: Holds) -> Markup {
    html! {
        td.number[is_number(holds)].name[holds == Holds::Name] {
            (words(&cell.text))
            @if let Some(bar) = &cell.bar { (self::bar(bar)) }
        }
    }
}

/// A bar; what it shows stands in words beside it.
fn bar(bar: &Bar) -> Markup {
    let percent = |share: f64| format!("{:.1}%", share * 100.0);
    html! {
        span.bar.(class(bar.role)) aria-hidden="true" {
            @for (from, to) in &bar.filled {
                i style={ "left:" (percent(*from)) ";width:" (percent(to - from)) } {}
            }
            @for (at, sign) in &bar.marks { b style={ "left:" (percent(*at)) } { (sign) } }
            @if let Some(post) = bar.post { b style={ "left:" (percent(post)) } { "|" } }
        }
    }
}

fn words(text: &Text) -> Markup {
    html! {
        @for span in text.spans() {
            @match span.role() {
                Role::Plain => (span.text()),
                Role::Key => code { (span.text()) },
                role => span class=(class(role)) { (span.text()) },
            }
        }
    }
}

/// The class of style of a role.
fn class(role: Role) -> &'static str {
    match role {
        Role::Plain => "plain",
        Role::Pass => "pass",
        Role::Thin => "thin",
        Role::Advise => "advise",
        Role::Unsure => "unsure",
        Role::Fail => "fail",
        Role::NotChecked => "not-checked",
        Role::Muted => "muted",
        Role::Key => "key",
    }
}
