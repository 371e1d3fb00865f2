using System.Text;
using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Workshop;

namespace ReedShop.Tests.Workshop;

public sealed class HistoryRowsFacts
{
    private const string Header = "batch,model,aim,caneLot,date,step,in,out,redo\n";
    private static readonly DateOnly Today = new(2027, 3, 1);
    private static readonly ReedModel[] Models = [.. ReadyRoutes.All.Select(Model)];

    [Fact]
    public async Task A_good_row_is_read_whole()
    {
        var row = Assert.Single((await Steps("P1,clarinet,3.25,A,2026-11-02,profile,12,10,1\n")).Good).Value;

        Assert.Equal(("P1", "clarinet", "A", "profile"), (row.Batch, row.Model, row.CaneLot, row.Step));
        Assert.Equal((12, 10, 1), (row.In, row.Out, row.Redo));
        Assert.Equal(Strength.OfQuarters(13), row.Aim);
        Assert.Equal(new DateOnly(2026, 11, 2), row.Date);
    }

    [Fact]
    public async Task Columns_come_in_any_order_and_redo_may_be_missing()
    {
        var rows = await Read("out,IN,step,date,caneLot,aim,model,batch\n9,10,clip,2026-11-02,A,3½,clarinet,P1\n");

        var row = Assert.Single(rows.Good).Value;
        Assert.Equal((10, 9, 0), (row.In, row.Out, row.Redo));
    }

    [Fact]
    public async Task An_early_step_needs_no_aim_and_an_old_batch_no_lot()
    {
        var row = Assert.Single((await Steps("P1,clarinet,,,2026-11-02,fine flatten,12,12,\n")).Good).Value;

        Assert.Null(row.Aim);
        Assert.Equal("", row.CaneLot);
    }

    [Fact]
    public async Task Model_and_step_are_found_however_they_are_capitalised()
    {
        var row = Assert.Single((await Steps("P1,Clarinet,3,A,2026-11-02,Play In,12,12,0\n")).Good).Value;

        Assert.Equal(("clarinet", "play in"), (row.Model, row.Step));
    }

    [Theory]
    [InlineData(
        "P1,oboe,3,A,2026-11-02,profile,12,10,0",
        "model cannot be \"oboe\"; the shop has alto-saxophone, bass-clarinet, clarinet"
    )]
    [InlineData(
        "P1,clarinet,3,A,2026-11-02,polish,12,10,0",
        "step cannot be \"polish\"; the steps of clarinet are coarse flatten, first rack, fine flatten, second rack, sides, profile, clip, play in, play again, grade"
    )]
    [InlineData("P1,clarinet,3,A,2026-11-02,profile,10,12,0", "out is 12, but only 10 came in; write 0 to 10")]
    [InlineData("P1,clarinet,3,A,2026-11-02,profile,10,9,11", "redo is 11, but only 10 came in; write 0 to 10")]
    [InlineData(
        "P1,clarinet,3,A,2026-11-02,profile,10,-1,0",
        "out is negative: -1; write a whole number from 0 to 10000"
    )]
    [InlineData(
        "P1,clarinet,3,A,2026-11-02,profile,ten,9,0",
        "in cannot be \"ten\"; write a whole number from 0 to 10000"
    )]
    [InlineData(
        "P1,clarinet,3,A,2026-11-02,profile,10.5,9,0",
        "in cannot be \"10.5\"; write a whole number from 0 to 10000"
    )]
    [InlineData(
        "P1,clarinet,3,A,2026-11-02,profile,99999999999,9,0",
        "in cannot be \"99999999999\"; write a whole number from 0 to 10000"
    )]
    [InlineData("P1,clarinet,3,A,2026-11-02,profile,,9,0", "in is empty; write a whole number from 0 to 10000")]
    [InlineData(
        "P1,clarinet,3,A,2.11.2026,profile,10,9,0",
        "date cannot be \"2.11.2026\"; write year, month and day, such as 2027-03-01"
    )]
    [InlineData(
        "P1,clarinet,3,A,2026-02-30,profile,10,9,0",
        "date cannot be \"2026-02-30\"; write year, month and day, such as 2027-03-01"
    )]
    [InlineData(
        "P1,clarinet,3,A,2027-03-02,profile,10,9,0",
        "date 2027-03-02 is still to come; write a day up to today, 2027-03-01"
    )]
    [InlineData(
        "P1,clarinet,3,A,0026-11-02,profile,10,9,0",
        "date 0026-11-02 is too long ago; write a day from 1950-01-01"
    )]
    [InlineData(
        "P1,clarinet,3.3,A,2026-11-02,profile,10,9,0",
        "aim cannot be \"3.3\"; write a strength from 1 to 6 in quarter steps, such as 3, 3.25 or 3.5"
    )]
    [InlineData(
        "P1,clarinet,7,A,2026-11-02,profile,10,9,0",
        "aim cannot be \"7\"; write a strength from 1 to 6 in quarter steps, such as 3, 3.25 or 3.5"
    )]
    [InlineData(",clarinet,3,A,2026-11-02,profile,10,9,0", "batch is empty; write a name of 1 to 40 characters")]
    [InlineData("P1,clarinet,3,A,2026-11-02,profile,10,9", "there are 8 fields, but the header names 9")]
    [InlineData("P1,clarinet,3,A,2026-11-02,profile,10,9,0,0", "there are 10 fields, but the header names 9")]
    [InlineData(
        "P1,clarinet,3,\"A\"x,2026-11-02,profile,10,9,0",
        "a quotation mark is out of place; quote a whole field, and double a mark inside it"
    )]
    [InlineData(
        "P1,clarinet,3,\"A,2026-11-02,profile,10,9,0",
        "a quotation mark is out of place; quote a whole field, and double a mark inside it"
    )]
    public async Task A_bad_row_is_told_with_its_reason(string bad, string reason)
    {
        var rows = await Steps("P0,clarinet,3,A,2026-11-02,profile,10,9,0\n" + bad + "\n");

        Assert.Single(rows.Good);
        Assert.Equal(new BadRow(3, reason), Assert.Single(rows.Bad.First));
    }

    [Fact]
    public async Task All_that_is_wrong_with_a_row_is_told_at_once()
    {
        var bad = Assert.Single((await Steps("P1,clarinet,3,A,soon,profile,ten,9,0\n")).Bad.First);

        Assert.Equal(
            "date cannot be \"soon\"; write year, month and day, such as 2027-03-01; "
                + "in cannot be \"ten\"; write a whole number from 0 to 10000",
            bad.Reason
        );
    }

    [Fact]
    public async Task A_step_written_twice_keeps_its_first_row()
    {
        var rows = await Steps(
            "P1,clarinet,3,A,2026-11-02,profile,10,9,0\n"
                + "P1,clarinet,3,A,2026-11-02,clip,9,9,0\n"
                + "P1,clarinet,3,A,2026-11-02,profile,10,8,0\n"
        );

        Assert.Equal([9, 9], rows.Good.Select(row => row.Value.Out));
        Assert.Equal(
            new BadRow(4, "batch P1 has its step profile on line 2 already; write it once"),
            Assert.Single(rows.Bad.First)
        );
    }

    [Fact]
    public async Task A_step_may_be_written_again_after_a_row_that_was_no_good()
    {
        var rows = await Steps(
            "P1,clarinet,3,A,2026-11-02,profile,10,11,0\nP1,clarinet,3,A,2026-11-02,profile,10,9,0\n"
        );

        Assert.Equal(3, Assert.Single(rows.Good).Line);
    }

    [Fact]
    public async Task A_batch_has_one_model_and_one_aim()
    {
        var rows = await Steps(
            "P1,clarinet,,A,2026-11-02,fine flatten,10,9,0\n"
                + "P1,clarinet,3,A,2026-11-02,profile,9,9,0\n"
                + "P1,alto-saxophone,3,A,2026-11-02,clip,9,9,0\n"
                + "P1,clarinet,3.5,A,2026-11-02,clip,9,9,0\n"
        );

        Assert.Equal(
            [
                new BadRow(4, "a batch has one model, and batch P1 is of model clarinet on line 3"),
                new BadRow(5, "a batch has one aim, and batch P1 has aim 3 on line 3"),
            ],
            rows.Bad.First
        );
    }

    [Fact]
    public async Task Lines_are_those_of_the_file_also_with_blank_lines_and_line_breaks_in_fields()
    {
        var rows = await Read(
            "batch,model,aim,caneLot,date,step,in,out\r\n"
                + "\r\n"
                + "P1,clarinet,3,\"A,\r\nupper \"\"field\"\"\",2026-11-02,profile,10,9\r\n"
                + "P2,clarinet,3,A,2026-11-02,profile,10,11"
        );

        var good = Assert.Single(rows.Good);
        Assert.Equal((3, "A, upper \"field\""), (good.Line, good.Value.CaneLot));
        Assert.Equal(5, Assert.Single(rows.Bad.First).Line);
    }

    [Fact]
    public async Task Bytes_that_are_not_UTF8_spoil_their_own_line_only()
    {
        byte[] file =
        [
            .. Encoding.UTF8.GetPreamble(),
            .. Encoding.UTF8.GetBytes(Header + "P1,clarinet,3½,Käse,2026-11-02,profile,10,9,0\nP2,clarinet,3,K"),
            0xE4,
            .. Encoding.UTF8.GetBytes("se,2026-11-02,profile,10,9,0\nP3,clarinet,3,A,2026-11-02,profile,10,9,0\n"),
        ];
        using var text = new StreamReader(new MemoryStream(file), Encoding.UTF8);

        var rows = (await HistoryRows.Steps(text, Models, Today)).Value;

        Assert.Equal(["P1", "P3"], rows.Good.Select(row => row.Value.Batch));
        Assert.Equal(new BadRow(3, "some bytes are not UTF-8; save the file as UTF-8"), Assert.Single(rows.Bad.First));
    }

    [Theory]
    [InlineData("", "The file is empty.")]
    [InlineData("\n  \n", "The file is empty.")]
    [InlineData(
        "batch,model\nP1,clarinet\n",
        "The first line does not name the columns aim, caneLot, date, step, in, out."
    )]
    [InlineData(
        "batch,model,aim,caneLot,date,step,in,out,colour\n",
        "The first line names unknown columns: \"colour\"."
    )]
    [InlineData("batch,model,aim,caneLot,date,step,in,out,Out\n", "The first line names a column twice: \"out\".")]
    [InlineData("batch;model;aim\nP1;clarinet;3\n", "The first line names unknown columns: \"batch;model;aim\".")]
    public async Task A_file_without_the_right_first_line_is_refused_as_a_whole(string text, string detail)
    {
        var refusal = (await HistoryRows.Steps(new StringReader(text), Models, Today)).Refusal;

        Assert.Equal(RefusalKind.InvalidValue, refusal?.Kind);
        Assert.Equal(detail, refusal?.Detail);
        Assert.Equal(
            "columns batch, model, aim, caneLot, date, step, in, out, and redo if you like, in any order, separated by commas",
            refusal?.Allowed
        );
    }

    [Fact]
    public async Task A_file_of_nothing_but_bad_rows_is_counted_whole_and_listed_in_part()
    {
        var rows = await Steps(string.Concat(Enumerable.Repeat("x\n", 1_200)));

        Assert.Equal(1_200, rows.Bad.Count);
        Assert.Equal(1_000, rows.Bad.First.Count);
    }

    [Fact]
    public async Task Grades_are_read_with_their_own_rules()
    {
        var rows = (
            await HistoryRows.Grades(
                new StringReader("strength,batch,count\n3.25,P1,4\n3.1,P1,2\n3.5,P1,-2\n3.25,P1,4\n3¼,P2,0\n")
            )
        ).Value;

        Assert.Equal([("P1", 4), ("P2", 0)], rows.Good.Select(row => (row.Value.Batch, row.Value.Count)));
        Assert.Equal(
            [
                new BadRow(
                    3,
                    "strength cannot be \"3.1\"; write a strength from 1 to 6 in quarter steps, such as 3, 3.25 or 3.5"
                ),
                new BadRow(4, "count is negative: -2; write a whole number from 0 to 10000"),
                new BadRow(5, "batch P1 has strength 3¼ on line 2 already; write it once"),
            ],
            rows.Bad.First
        );
    }

    internal static ReedModel Model(ReadyRoute ready) =>
        new()
        {
            Key = ready.Model,
            Name = ready.Name,
            Instrument = ready.Instrument,
            Cut = "",
            Strengths = [Strength.OfQuarters(12)],
            Route = ready.Route,
        };

    private static Task<HistoryRows<PastStep>> Steps(string rows) => Read(Header + rows);

    private static async Task<HistoryRows<PastStep>> Read(string file) =>
        (await HistoryRows.Steps(new StringReader(file), Models, Today)).Value;
}
