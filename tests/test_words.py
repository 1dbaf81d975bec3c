"""How many words a text has, in scripts with blanks between words and without.

The first article of the Universal Declaration of Human Rights says the same in every language (texts as the United
Nations publish them, written down from memory).
"""
import unicodedata

import pytest

from lessons_lib.exercises.reading import words

ARTICLE = {
    "English": "All human beings are born free and equal in dignity and rights. They are endowed with reason and "
               "conscience and should act towards one another in a spirit of brotherhood.",
    "Japanese": "すべての人間は、生れながらにして自由であり、かつ、尊厳と権利とについて平等である。人間は、理性と良心"
                "とを授けられており、互いに同胞の精神をもって行動しなければならない。",
    "Chinese": "人人生而自由，在尊严和权利上一律平等。他们赋有理性和良心，并应以兄弟关系的精神相对待。",
    "Thai": "มนุษย์ทั้งหลายเกิดมามีอิสระและเสมอภาคกันในเกียรติศักดิ์และสิทธิ ต่างมีเหตุผลและมโนธรรม "
            "และควรปฏิบัติต่อกันด้วยเจตนารมณ์แห่งภราดรภาพ",
    "Lao": "ມະນຸດທຸກຄົນເກີດມາມີກຽດສັກສີ, ສິດທິ, ເສລີພາບແລະຄວາມສະເໝີພາບເທົ່າທຽມກັນ. ທຸກໆຄົນມີເຫດຜົນແລະຄວາມຄິດຄວາມເຫັນ"
           "ສ່ວນຕົວຂອງໃຜຂອງມັນ, ແຕ່ວ່າມະນຸດທຸກໆຄົນຄວນປະພຶດຕໍ່ກັນຄືກັນກັບເປັນອ້າຍນ້ອງກັນ",
    "Khmer": "មនុស្សទាំងអស់ កើតមកមានសេរីភាព និងសមភាព ក្នុងផ្នែកសេចក្ដីថ្លៃថ្នូរនិងសិទ្ធិ។ មនុស្ស "
             "មានវិចារណញ្ញាណនិងសតិសម្បជញ្ញៈជាប់ពីកំណើត ហើយគប្បីប្រព្រឹត្ដចំពោះគ្នាទៅវិញទៅមក ក្នុងស្មារតីភាតរភាពជាបងប្អូន។",
    "Burmese": "လူတိုင်းသည် တူညီ လွတ်လပ်သော ဂုဏ်သိက္ခာဖြင့် လည်းကောင်း၊ တူညီလွတ်လပ်သော အခွင့်အရေးများဖြင့် "
               "လည်းကောင်း၊ မွေးဖွားလာသူများ ဖြစ်သည်။ ထိုသူတို့၌ ပိုင်းခြား ဝေဖန်တတ်သော ဉာဏ်နှင့် ကျင့်ဝတ် သိတတ်သော "
               "စိတ်တို့ရှိကြ၍ ထိုသူတို့သည် အချင်းချင်း မေတ္တာထား၍ ဆက်ဆံကျင့်သုံးသင့်၏။",
}


@pytest.mark.parametrize("language", ARTICLE)
def test_the_same_article_has_about_as_many_words_in_every_language(language):
    """English has 30; languages with blanks have 19 (Finnish, from memory) to 33 (Hindi), so a sixth is close."""
    assert 25 <= words(ARTICLE[language]) <= 35


def test_vowel_signs_and_accents_end_no_word():
    hindi = ("सभी मनुष्यों को गौरव और अधिकारों के मामले में जन्मजात स्वतन्त्रता और समानता प्राप्त है। उन्हें बुद्धि और अन्तरात्मा की देन "
             "प्राप्त है और परस्पर उन्हें भाईचारे के भाव से बर्ताव करना चाहिए।")
    assert words(hindi) == len(hindi.split()) == 33
    assert words(unicodedata.normalize("NFD", "à côté, déjà vu")) == 4      # as some systems write an accent


@pytest.mark.parametrize("text, count", [
    ("", 0), ("...", 0), ("。、！", 0), ("one", 1), ("don't stop at 1.5 mm", 5), ("a\n\tb", 2), ("모든 인간은", 2),
    ("磁", 1), ("磁束", 2), ("磁束密", 2), ("カタカナ", 2), ("ー・ー", 1), ("ﾊﾝｶｸ", 2), ("々〆〇", 2), ("𠀀𠀁𠀂", 2),
    ("กขคง", 1), ("กขคงจ", 2), ("๑๒ ๓", 2)])
def test_words_counted_by_hand(text, count):
    """Han two thirds of a word, kana one third, Thai a quarter, rounded up once for the whole text."""
    assert words(text) == count


def test_a_mixed_text_is_the_sum_of_its_parts():
    assert words("磁束 Φ is 2 µWb, 計算した") == 4 + 4       # four Han and two kana are 3 1/3 words
