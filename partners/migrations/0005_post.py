from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('partners', '0004_money'),
    ]

    operations = [
        migrations.AddField(
            model_name='letter',
            name='sent_to',
            field=models.EmailField(blank=True, max_length=254, verbose_name='e-mailed to'),
        ),
        migrations.AddField(
            model_name='membership',
            name='calendar_turn',
            field=models.PositiveIntegerField(default=0, editable=False, help_text='Which secret calendar address counts; 0: none was made yet.'),
        ),
    ]
