using ReedShop.Reminders;
using ReedShop.Workshop;

namespace ReedShop.Tests.Reminders;

public sealed class DayLetterFacts
{
    private static readonly DateOnly Monday = new(2027, 3, 1);

    [Fact]
    public void Each_person_finds_their_steps_under_their_name()
    {
        var day = new DayView(Monday, [], [Soak("7", 19)], [], ["Wear the mask."])
        {
            Helpers = [new HelperDayView("Ana", [], [Soak("8", 17)], [])],
        };

        Assert.Equal("On the bench Monday 1 March 2027: 2 steps, 17:00 to 19:10", DayLetter.Title(day));
        Assert.Equal(
            "Harbour reeds, Monday 1 March 2027\n\n"
                + "\nYou:\n19:00-19:10  7  soak, 5 blanks (clarinet)\n"
                + "\nAna:\n17:00-17:10  8  soak, 5 blanks (clarinet)\n"
                + "\nWear the mask.\n",
            DayLetter.Text(day, "Harbour reeds")
        );
    }

    private static DayLineView Soak(string batch, int hour) =>
        new(
            "id",
            batch,
            "clarinet",
            1,
            "soak",
            new TimeOnly(hour, 0),
            new TimeOnly(hour, 10),
            5,
            0,
            null,
            null,
            Counted: false,
            Graded: false
        );

    [Fact]
    public void What_stays_for_another_day_is_told_with_its_reason()
    {
        var day = new DayView(Monday, [], [], [new CarriedView("7", "profile", 1, "no time left")], []);

        Assert.Equal(
            "Harbour reeds, Monday 1 March 2027\n\nNothing is planned for today.\n\nNot today:\n7  profile, 1 blank: no time left\n",
            DayLetter.Text(day, "Harbour reeds")
        );
    }
}
