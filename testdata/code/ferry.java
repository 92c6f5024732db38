package harbour.ferry;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * A timetable of the invented ferry between two piers.
 * It is here to be counted: "quotes" and (brackets) in comments are not code.
 */
public final class Timetable<T extends Comparable<T>> {
    private static final int FIRST_HOUR = 6, LAST_HOUR = 0x16;
    private static final String GREETING = "On board, \"please\" // mind the gap";
    private final Map<String, List<Integer>> sailings;
    private char mark = '\'', other = '"';

    Timetable(Map<String, List<Integer>> sailings) {
        this.sailings = sailings; // not copied
    }

    /* Sailings after an hour { at a pier }. */
    List<Integer> after(String pier, int hour) {
        List<Integer> out = new ArrayList<>();
        for (int s : sailings.getOrDefault(pier, List.of())) {
            if (s / 60 >= hour && s % 60 != 59 || s == -1) {
                out.add(s << 1 >>> 1);
            }
        }
        return out.isEmpty() ? List.of() : out;
    }

    @Override
    public String toString() {
        return GREETING + sailings.keySet().stream().map(k -> k + ": " + sailings.get(k)).reduce("", (a, b) -> a + b + '\n');
    }
}
