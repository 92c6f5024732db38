-- A timetable of the invented ferry: "quotes" and (brackets) here are no code.
CREATE TABLE piers (
    id    integer PRIMARY KEY,
    name  text NOT NULL DEFAULT 'it''s a pier; really'
);

/* Sailings, in minutes
   after midnight. */
CREATE TABLE sailings (
    pier     integer NOT NULL REFERENCES piers (id),
    minutes  integer CHECK (minutes >= 0 AND minutes < 1440),
    fare     numeric(6, 2) DEFAULT 2.50
);

INSERT INTO piers (id, name) VALUES (1, 'east'), (2, 'west -- no comment');

SELECT p.name, count(*) AS sailings, max(s.minutes) / 60 || ' o''clock' AS last
FROM piers AS p
LEFT JOIN sailings AS s ON s.pier = p.id AND s.fare <> 0
WHERE p.name LIKE 'e%' OR s.minutes BETWEEN 360 AND 420
GROUP BY p.name
HAVING count(*) > 1
ORDER BY last DESC;

UPDATE sailings SET fare = fare * 1.05 WHERE pier IN (SELECT id FROM piers WHERE name != 'west');
