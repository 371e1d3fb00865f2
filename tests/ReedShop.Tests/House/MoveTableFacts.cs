using ReedShop.Orders;

namespace ReedShop.Tests.House;

public sealed class MoveTableFacts
{
    [Theory]
    [InlineData(OrderMove.Ship, OrderStage.Ready, OrderStage.Shipped)]
    [InlineData(OrderMove.CompleteReeds, OrderStage.OnBench, OrderStage.Ready)]
    [InlineData(OrderMove.Cancel, OrderStage.Ready, OrderStage.Cancelled)]
    public void A_move_leads_where_the_table_says(OrderMove move, OrderStage from, OrderStage to) =>
        Assert.Equal(to, OrderMoves.To(move, from));

    [Fact]
    public void A_shipped_order_goes_nowhere() =>
        Assert.All(Enum.GetValues<OrderMove>(), move => Assert.Null(OrderMoves.To(move, OrderStage.Shipped)));

    [Fact]
    public void No_move_is_ambiguous() =>
        Assert.Equal(OrderMoves.All.Count, OrderMoves.All.DistinctBy(row => (row.Move, row.From)).Count());
}
