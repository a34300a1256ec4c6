//! A preview as a page, for editors that show none themselves.

use quillet_ide::Preview;

/// A whole page: the measures, the pictures, what the numbers in them mean. It asks for nothing
/// and runs nothing.
pub(crate) fn of(preview: &Preview) -> String {
    let title = escaped(&preview.title);
    let measures = preview.measures.iter().map(|(name, value)| {
        let (name, value) = (escaped(name), escaped(value));
        format!("<tr><th scope=\"row\">{name}</th><td>{value}</td></tr>\n")
    });
    let pictures = preview.pictures.iter().map(|it| {
        let says = escaped(&it.name);
        format!(
            "<figure>{}<figcaption>{says}</figcaption></figure>\n",
            it.svg
        )
    });
    let legend = preview
        .legend
        .iter()
        .map(|message| format!("<li>{}</li>\n", escaped(message)));
    let (measures, pictures, legend): (String, String, String) =
        (measures.collect(), pictures.collect(), legend.collect());
    let legend = match legend.is_empty() {
        true => String::new(),
        false => format!("<ul>\n{legend}</ul>\n"),
    };
    format!(
        "<!doctype html>\n<html lang=\"en\">\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width\">\n<title>{title}</title>\n\
         <style>{STYLE}</style>\n<h1>{title}</h1>\n{pictures}{legend}\
         <table>\n{measures}</table>\n</html>\n",
    )
}

const STYLE: &str = "\
:root{color-scheme:light dark}\
body{max-width:60rem;margin:1.5rem auto;padding:0 1rem;font:1rem/1.45 system-ui,sans-serif}\
h1{font-size:1.3rem;margin:0 0 .6rem}\
figure{margin:1rem 0}figcaption{font-size:.9rem;opacity:.75}svg{width:100%;height:auto;display:block}\
th{text-align:left;font-weight:normal;opacity:.75;padding-right:1.5rem;vertical-align:top}\
ul{list-style:none;padding:0;font-size:.9rem}";

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;")
}

#[cfg(test)]
mod tests {
    use super::*;
    use quillet_ide::Picture;

    #[test]
    fn what_the_maker_wrote_is_shown_and_not_read_as_markup() {
        let page = of(&Preview {
            name: "heron".into(),
            title: "<b>Heron".into(),
            pictures: vec![Picture {
                name: "heron".into(),
                svg: "<svg/>".into(),
            }],
            legend: vec!["1 cap on barrel".into()],
            measures: vec![("want ink < 1".into(), "0.8 ml".into())],
        });
        assert!(page.contains("<h1>&lt;b>Heron</h1>"), "{page}");
        assert!(page.contains("want ink &lt; 1"), "{page}");
        let (whole, legend) = (page.find("<svg/>"), page.find("1 cap on barrel"));
        assert!(whole.is_some() && whole < legend, "{page}");
    }
}
