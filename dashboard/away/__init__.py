"""Away from the house: pages kept on the phone, entries that wait there, and the programme's own sign."""
