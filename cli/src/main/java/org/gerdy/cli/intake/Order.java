package org.gerdy.cli.intake;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What can be done on a screen beside answering; each has one key and one word. */
enum Order {
    YES('y', "yes"),
    NO('n', "no"),
    UNABLE('u', "unable"),
    OTHER('o', "other side"),
    ONE_BY_ONE('i', "one by one"),
    LATER('l', "later"),
    BACK('b', "back"),
    JUMP('j', "jump"),
    SEARCH('s', "search"),
    REMARK('r', "remark"),
    WHY('w', "why"),
    PICTURE('p', "picture"),
    FINISH('f', "finish"),
    ERASE('e', "erase"),
    LETTER('t', "letter"),
    AGAIN('a', "again"),
    GO_ON('g', "go on"),
    HELP('h', "help"),
    QUIT('q', "quit");

    private final char key;
    private final String word;

    Order(char key, String word) {
        this.key = key;
        this.word = word;
    }

    /** As shown: the key, then the word. */
    String shown() {
        return key + " " + word;
    }

    static List<String> list(Order... orders) {
        return Arrays.stream(orders).map(Order::shown).toList();
    }

    /** The order meant by a key or its word. */
    static Optional<Order> of(String typed) {
        String text = typed.strip().toLowerCase(Locale.ROOT);
        return Arrays.stream(values())
                .filter(order -> text.equals(String.valueOf(order.key)) || text.equals(order.word))
                .findFirst();
    }
}
