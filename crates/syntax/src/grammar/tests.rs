use super::*;

#[test]
fn each_word_stands_once_at_a_place_and_says_what_it_means() {
    assert!(
        TEXTS.len() <= expect::MOST_WORDS,
        "the parser keeps sets of words in so many bits"
    );
    for (index, word) in WORDS.iter().enumerate() {
        let twin = WORDS[index + 1..]
            .iter()
            .find(|other| (other.place, other.text) == (word.place, word.text));
        assert_eq!(twin, None, "{word:?} stands twice");
        assert!(
            !word.help.is_empty() && !word.help.ends_with('.'),
            "{word:?}"
        );
        assert!(word.example.contains(word.text), "{word:?}");
    }
}

#[test]
fn a_number_stands_for_each_word() {
    for word in WORDS.iter() {
        assert_eq!(WordId::of(word.text).text(), word.text);
    }
    assert_eq!(WordId::of("heron"), WordId::NONE);
    assert!(RESERVED.iter().all(|word| WordId::of(word).is_reserved()));
    assert!(!WordId::of("to").is_reserved());
}
