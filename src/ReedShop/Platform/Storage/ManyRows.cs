using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Storage;

namespace ReedShop.Platform.Storage;

/// <summary>
/// Inserts rows of one kind by one prepared command. Tracked and saved one by one, a hundred thousand rows would fill
/// the memory and take a minute.
/// </summary>
internal sealed class ManyRows<T> : IAsyncDisposable
    where T : class
{
    private readonly DbCommand command;
    private readonly Column[] columns;

    private ManyRows(ShopDb db, IDbContextTransaction transaction)
    {
        var kind = db.Model.FindEntityType(typeof(T))!;
        var table = StoreObjectIdentifier.Create(kind, StoreObjectType.Table)!.Value;
        command = db.Database.GetDbConnection().CreateCommand();
        command.Transaction = transaction.GetDbTransaction();
        columns = [.. kind.GetProperties().Select((property, index) => new Column(command, property, $"@p{index}"))];
        var names = kind.GetProperties().Select(property => Quoted(db, property.GetColumnName(table)!));
        command.CommandText =
            $"INSERT INTO {Quoted(db, table.Name)} ({string.Join(", ", names)}) "
            + $"VALUES ({string.Join(", ", columns.Select(column => column.Parameter.ParameterName))})";
    }

    public static async Task Insert(
        ShopDb db,
        IDbContextTransaction transaction,
        IEnumerable<T> rows,
        CancellationToken cancel
    )
    {
        await using var many = new ManyRows<T>(db, transaction);
        await many.command.PrepareAsync(cancel);
        foreach (var row in rows)
        {
            foreach (var column in many.columns)
            {
                column.Set(row);
            }

            await many.command.ExecuteNonQueryAsync(cancel);
        }
    }

    public ValueTask DisposeAsync() => command.DisposeAsync();

    private static string Quoted(ShopDb db, string name) =>
        db.GetService<ISqlGenerationHelper>().DelimitIdentifier(name);

    private sealed class Column
    {
        private readonly IProperty property;
        private readonly RelationalTypeMapping mapping;

        public Column(DbCommand command, IProperty property, string name)
        {
            this.property = property;
            mapping = property.GetRelationalTypeMapping();
            Parameter = mapping.CreateParameter(command, name, null, property.IsNullable);
            command.Parameters.Add(Parameter);
        }

        public DbParameter Parameter { get; }

        public void Set(T row)
        {
            var value = property.GetGetter().GetClrValue(row);
            Parameter.Value = (mapping.Converter?.ConvertToProvider(value) ?? value) ?? DBNull.Value;
        }
    }
}
